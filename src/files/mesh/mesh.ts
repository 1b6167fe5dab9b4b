import { cross3, dot3, length3, subtract, type Vector } from '../../base/vectors.js';

/** A skin of triangles: three coordinates a corner (mm), three corners a triangle, counter-clockwise from outside. */
export interface Mesh {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** A box along the axes, mm. */
export interface Box {
  readonly least: Vector;
  readonly most: Vector;
}

/** One corner of a mesh. */
export const cornerOf = ({ positions }: Mesh, i: number): Vector => [
  positions[3 * i] ?? NaN,
  positions[3 * i + 1] ?? NaN,
  positions[3 * i + 2] ?? NaN,
];

/** The triangles one by one, as the numbers of their corners. */
export function* trianglesOf({ triangles }: Mesh): Generator<readonly [number, number, number]> {
  for (let i = 0; i < triangles.length; i += 3)
    yield [triangles[i] ?? 0, triangles[i + 1] ?? 0, triangles[i + 2] ?? 0];
}

/** Volume enclosed, mm3: the sum of the tetrahedra from the origin. Negative where the skin is inside out. */
export function volumeOf(mesh: Mesh): number {
  let six = 0;
  for (const [a, b, c] of trianglesOf(mesh))
    six += dot3(cornerOf(mesh, a), cross3(cornerOf(mesh, b), cornerOf(mesh, c)));
  return six / 6;
}

/** Area of the skin, mm2. */
export function skinOf(mesh: Mesh): number {
  let twice = 0;
  for (const [a, b, c] of trianglesOf(mesh)) {
    const from = cornerOf(mesh, a);
    twice += length3(cross3(subtract(cornerOf(mesh, b), from), subtract(cornerOf(mesh, c), from)));
  }
  return twice / 2;
}

/** The box that just holds a mesh. */
export function boxOf({ positions }: Mesh): Box {
  const least: [number, number, number] = [Infinity, Infinity, Infinity];
  const most: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  positions.forEach((value, i) => {
    const axis = (i % 3) as 0 | 1 | 2;
    least[axis] = Math.min(least[axis], value);
    most[axis] = Math.max(most[axis], value);
  });
  return { least, most };
}
