import { tolerance } from '../../base/tolerance.js';
import { trianglesOf, type Mesh } from './mesh.js';

/**
 * The same mesh with its corners rounded as a file will hold them, corners in one place made one, and
 * triangles that the rounding has flattened to a line taken out, so that a closed skin stays closed.
 * A mesh that comes face by face from a kernel has every corner of an edge twice; twins are found before
 * the rounding, which could send them to different sides.
 * @param round what the file does to a coordinate
 * @throws an Error where a corner is not finite
 */
export function welded(mesh: Mesh, round: (value: number) => number): Mesh {
  if (!mesh.positions.every(Number.isFinite)) throw new Error('a mesh corner that is not finite');
  const one = joined(mesh, tolerance.samePoint);
  // Adding 0 makes minus zero plain.
  const rounded = joined({ ...one, positions: one.positions.map((value) => round(value) + 0) }, 0);
  const kept: number[] = [];
  for (const [a, b, c] of trianglesOf(rounded)) if (a !== b && b !== c && c !== a) kept.push(a, b, c);
  return { ...rounded, triangles: Uint32Array.from(kept) };
}

/** The same mesh with corners no farther apart than `slack` (mm, along each axis) made one: the first of them. */
export function joined({ positions, triangles }: Mesh, slack: number): Mesh {
  const count = positions.length / 3;
  const names = new Uint32Array(count);
  const kept: number[] = [];
  const cells = new Map<number, number[]>();
  for (let corner = 0; corner < count; corner++) {
    const x = positions[3 * corner] ?? NaN;
    const y = positions[3 * corner + 1] ?? NaN;
    const z = positions[3 * corner + 2] ?? NaN;
    let name = -1;
    for (const cell of cellsNear(x, y, z, slack)) {
      for (const known of cells.get(cell) ?? []) {
        const near =
          Math.abs((kept[3 * known] ?? NaN) - x) <= slack &&
          Math.abs((kept[3 * known + 1] ?? NaN) - y) <= slack &&
          Math.abs((kept[3 * known + 2] ?? NaN) - z) <= slack;
        if (near) name = known;
      }
      if (name >= 0) break;
    }
    if (name < 0) {
      name = kept.length / 3;
      kept.push(x, y, z);
      const cell = cellOf(Math.floor(x / CELL), Math.floor(y / CELL), Math.floor(z / CELL));
      const list = cells.get(cell);
      if (list) list.push(name);
      else cells.set(cell, [name]);
    }
    names[corner] = name;
  }
  return {
    positions: Float64Array.from(kept),
    triangles: triangles.map((corner) => names[corner] ?? 0),
  };
}

/** Edge of the cells in which neighbours are looked for, mm: far more than the slack, far less than a triangle. */
const CELL = 1e-3;

/** One number for a cell. Two cells may share one; what lies in them is compared anyway. */
const cellOf = (x: number, y: number, z: number): number =>
  Math.imul(x, 73856093) ^ Math.imul(y, 19349663) ^ Math.imul(z, 83492791);

/** The cell of a place, and its neighbours where the place is within the slack of the border. */
function cellsNear(x: number, y: number, z: number, slack: number): readonly number[] {
  const [x0, x1] = [Math.floor((x - slack) / CELL), Math.floor((x + slack) / CELL)];
  const [y0, y1] = [Math.floor((y - slack) / CELL), Math.floor((y + slack) / CELL)];
  const [z0, z1] = [Math.floor((z - slack) / CELL), Math.floor((z + slack) / CELL)];
  if (x0 === x1 && y0 === y1 && z0 === z1) return [cellOf(x0, y0, z0)];
  const found: number[] = [];
  for (let i = x0; i <= x1; i++)
    for (let j = y0; j <= y1; j++) for (let k = z0; k <= z1; k++) found.push(cellOf(i, j, k));
  return found;
}
