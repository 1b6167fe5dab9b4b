import type { Vector } from '../../src/base/vectors.js';
import type { Mesh } from '../../src/files/mesh/mesh.js';

/** A pipe standing on z = 0 with `sides` flat sides: outer radius R, inner r, height h. Every triangle has its own corners. */
export function pipe(
  R: number,
  r: number,
  h: number,
  sides: number,
  at: readonly [number, number] = [0, 0],
): Mesh {
  const positions: number[] = [];
  const corner = (radius: number, i: number, z: number): Vector => {
    const turn = (2 * Math.PI * (i % sides)) / sides;
    return [at[0] + radius * Math.cos(turn), at[1] + radius * Math.sin(turn), z];
  };
  const face = (a: Vector, b: Vector, c: Vector, d: Vector): void => {
    positions.push(...a, ...b, ...c, ...a, ...c, ...d);
  };
  for (let i = 0; i < sides; i++) {
    const j = i + 1;
    face(corner(R, i, 0), corner(R, j, 0), corner(R, j, h), corner(R, i, h));
    face(corner(r, j, 0), corner(r, i, 0), corner(r, i, h), corner(r, j, h));
    face(corner(R, i, h), corner(R, j, h), corner(r, j, h), corner(r, i, h));
    face(corner(R, j, 0), corner(R, i, 0), corner(r, i, 0), corner(r, j, 0));
  }
  const triangles = Uint32Array.from({ length: positions.length / 3 }, (_, i) => i);
  return { positions: Float64Array.from(positions), triangles };
}

/** Its volume: a regular polygon of n sides in a circle of R has the area n R^2 sin(2 pi / n) / 2. */
export const pipeVolume = (R: number, r: number, h: number, sides: number): number =>
  (sides / 2) * Math.sin((2 * Math.PI) / sides) * (R * R - r * r) * h;

/** A mesh with one thing changed. */
export function changed(mesh: Mesh, change: (positions: number[], triangles: number[]) => void): Mesh {
  const [positions, triangles] = [[...mesh.positions], [...mesh.triangles]];
  change(positions, triangles);
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
