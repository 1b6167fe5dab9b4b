import type { FieldOf } from '../design/route/index.js';

/** A keep-out's skin in the engine's frame: all that another thread needs, and it may share the memory. */
export interface KeepOutMesh {
  /** Of the keep-out in the job. */
  readonly path: string;
  readonly triangles: Float64Array;
  readonly closed: boolean;
  /** How far the triangles may lie from the true surface, mm. */
  readonly standOff: number;
}

/** The distances to a job's meshes. What finds them is loaded only where there is a mesh. */
export async function fieldsOf(meshes: readonly KeepOutMesh[]): Promise<FieldOf> {
  if (meshes.length === 0) return () => undefined;
  const { meshSolid } = await import('../geom/mesh-field.js');
  const solids = new Map(
    meshes.map(({ path, triangles, closed, standOff }) => [path, meshSolid(triangles, closed, standOff)]),
  );
  return ({ path }, exactWithin) => solids.get(path)?.fieldWithin(exactWithin);
}
