import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from 'three';
import { AVERAGE, MeshBVH } from 'three-mesh-bvh';
import { tolerance } from '../base/tolerance.js';
import { nearestTriangle } from './nearest-triangle.js';
import type { Triangles } from './triangles.js';

/** Signed distance to a skin of triangles, exact; a tree of boxes stands behind it. mm. */
export interface MeshDistance {
  /**
   * Distance to the nearest triangle, below 0 inside of a closed skin.
   * @param most the distance (without its sign) is known to be no more than this: quicker
   * @param inside whether the point is inside, where that is known: quicker
   */
  readonly signed: (x: number, y: number, z: number, most?: number, inside?: boolean) => number;
}

/** Rays for telling inside from outside: three, askew to everything, of which two must agree. */
const SKEW = [
  [0.5713, 0.6151, 0.5434],
  [-0.6377, 0.2931, 0.7123],
  [0.1871, -0.8117, 0.5533],
] as const;

/**
 * Prepares a skin of triangles for being asked how far off it is.
 * Inside a closed skin is where the skin winds round the point (a ray crosses it outward and inward not equally
 * often): so skins that overlap count as one solid, and a skin facing inward within another bounds a hollow.
 * Where several overlap, the depth inside is that below the nearest skin, not below the outermost.
 * @param closed whether the skin is closed (`openEdgesOf` is 0): nothing is inside of an open one
 * @see three-mesh-bvh for the tree; the winding number of a point, common geometry, no source
 */
export function meshDistance(triangles: Triangles, closed: boolean): MeshDistance {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(triangles, 3));
  const tree = new MeshBVH(geometry, { strategy: AVERAGE, maxDepth: 64, verbose: false });
  const rays = SKEW.map(([x, y, z]) => new Ray(new Vector3(), new Vector3(x, y, z).normalize()));
  const point = new Vector3();
  const nearest = nearestTriangle(tree);

  const windsRound = (ray: Ray): boolean => {
    ray.origin.copy(point);
    let winding = 0;
    for (const { face } of tree.raycast(ray, DoubleSide))
      if (face) winding += face.normal.dot(ray.direction) > 0 ? 1 : -1;
    return winding !== 0;
  };
  const isInside = (): boolean => {
    const [first, second, third] = rays as [Ray, Ray, Ray];
    const [a, b] = [windsRound(first), windsRound(second)];
    return a === b ? a : windsRound(third);
  };
  return {
    signed(x, y, z, most = Infinity, inside): number {
      point.set(x, y, z);
      let squared = nearest(x, y, z, (most + tolerance.samePoint) ** 2);
      if (squared === Infinity) squared = nearest(x, y, z, Infinity);
      const distance = Math.sqrt(squared);
      return closed && (inside ?? isInside()) ? -distance : distance;
    },
  };
}
