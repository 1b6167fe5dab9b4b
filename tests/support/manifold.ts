import makeManifold, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Mesh } from '../../src/solid/index.js';

let opening: Promise<ManifoldToplevel> | undefined;

/** A mesh kernel that shares nothing with ours: it takes only meshes that close, and weighs and cuts them. */
function openManifold(): Promise<ManifoldToplevel> {
  opening ??= makeManifold().then((made) => {
    made.setup();
    return made;
  });
  return opening;
}

async function bodyOf({ positions, triangles }: Mesh): Promise<Manifold> {
  const { Manifold, Mesh: Triangles } = await openManifold();
  const mesh = new Triangles({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: triangles,
  });
  const body = new Manifold(mesh);
  if (body.status() !== 'NoError') throw new Error(`the mesh kernel says ${String(body.status())}`);
  return body;
}

/** Volume by the mesh kernel, mm^3. It throws where the mesh is not closed. */
export async function volumeByManifold(mesh: Mesh): Promise<number> {
  const body = await bodyOf(mesh);
  const volume = body.volume();
  body.delete();
  return volume;
}

/** How much two bodies share when the second is moved, mm^3. */
export async function clashByManifold(
  still: Mesh,
  moving: Mesh,
  by: readonly [number, number, number],
): Promise<number> {
  const [a, b] = [await bodyOf(still), await bodyOf(moving)];
  const moved = b.translate([...by]);
  const shared = a.intersect(moved);
  const volume = shared.volume();
  for (const body of [a, b, moved, shared]) body.delete();
  return volume;
}
