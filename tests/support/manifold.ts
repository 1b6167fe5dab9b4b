import makeManifold, { type ManifoldToplevel } from 'manifold-3d';
import { type Mesh } from '../../src/solid/mesh.js';

let opening: Promise<ManifoldToplevel> | undefined;

/** A mesh kernel that shares nothing with ours: it takes only meshes that close, and weighs them. */
export function openManifold(): Promise<ManifoldToplevel> {
  opening ??= makeManifold().then((made) => {
    made.setup();
    return made;
  });
  return opening;
}

/** Volume by the mesh kernel, mm^3. It throws where the mesh is not closed. */
export async function volumeByManifold({ positions, triangles }: Mesh): Promise<number> {
  const { Manifold, Mesh: Triangles } = await openManifold();
  const mesh = new Triangles({
    numProp: 3,
    vertProperties: Float32Array.from(positions),
    triVerts: triangles,
  });
  const body = new Manifold(mesh);
  const volume = body.volume();
  const status = body.status();
  body.delete();
  if (status !== 'NoError') throw new Error(`the mesh kernel says ${String(status)}`);
  return volume;
}
