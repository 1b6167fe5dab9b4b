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

/** The least gap between two bodies, mm, where it is no more than `within`: by the mesh kernel. */
export async function gapByManifold(a: Mesh, b: Mesh, within: number): Promise<number> {
  const [one, other] = [await bodyOf(a), await bodyOf(b)];
  const gap = one.minGap(other, within);
  for (const body of [one, other]) body.delete();
  return gap;
}

/** A box along the frame, as a mesh. */
export async function boxMesh(
  from: readonly [number, number, number],
  to: readonly [number, number, number],
): Promise<Mesh> {
  const { Manifold } = await openManifold();
  const size = to.map((x, i) => x - (from[i] ?? 0)) as [number, number, number];
  const box = Manifold.cube(size).translate([...from]);
  const { vertProperties, triVerts } = box.getMesh();
  box.delete();
  return { positions: Float64Array.from(vertProperties), triangles: triVerts } as unknown as Mesh;
}
