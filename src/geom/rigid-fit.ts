import { cosSin } from '../base/numbers.js';
import { add, distance3, length3, scale, subtract, type Vector } from '../base/vectors.js';

/** A turn and a shift: first the turn (rows of its matrix), then the shift. */
export interface Motion {
  readonly turn: readonly [Vector, Vector, Vector];
  readonly shift: Vector;
}

export const atRest: Motion = {
  turn: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, 0],
};

/** A point as a motion moves it. */
export const moved = ({ turn, shift }: Motion, p: Vector): Vector => {
  const part = (i: 0 | 1 | 2): number => turn[i][0] * p[0] + turn[i][1] * p[1] + turn[i][2] * p[2] + shift[i];
  return [part(0), part(1), part(2)];
};

/** How one set of points was laid onto another. */
export interface Fit {
  readonly motion: Motion;
  /** Size of the second set over that of the first: 1 where they fit. */
  readonly ratio: number;
  /** How far each moved point stays from its partner, in the order given. */
  readonly misses: readonly number[];
}

const middleOf = (points: readonly Vector[]): Vector =>
  scale(points.reduce(add, [0, 0, 0]), 1 / points.length);

/**
 * The turn and shift, without any stretching, that lay points onto their partners with the least sum of
 * squared misses. The points must not lie in one line.
 * @see Horn, Closed-form solution of absolute orientation using unit quaternions, J. Opt. Soc. Am. A 4 (1987)
 */
export function rigidFit(points: readonly Vector[], partners: readonly Vector[]): Fit {
  const [from, to] = [middleOf(points), middleOf(partners)];
  const a = points.map((p) => subtract(p, from));
  const b = partners.map((p) => subtract(p, to));
  const s = (i: number, j: number): number =>
    a.reduce((sum, p, k) => sum + (p[i] as number) * ((b[k] as Vector)[j] as number), 0);
  const [xx, xy, xz] = [s(0, 0), s(0, 1), s(0, 2)];
  const [yx, yy, yz] = [s(1, 0), s(1, 1), s(1, 2)];
  const [zx, zy, zz] = [s(2, 0), s(2, 1), s(2, 2)];
  const [w, x, y, z] = greatestOf([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]);
  const turn: Motion['turn'] = [
    [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
  ];
  const shift = subtract(to, moved({ turn, shift: [0, 0, 0] }, from));
  const motion = { turn, shift };
  const spread = (list: readonly Vector[]): number => Math.hypot(...list.map(length3));
  return {
    motion,
    ratio: spread(b) / spread(a),
    misses: points.map((p, i) => distance3(moved(motion, p), partners[i] as Vector)),
  };
}

/** Sweeps of Jacobi's rotations: a matrix of four rows needs about five. */
const SWEEPS = 12;

/** The unit eigenvector of the greatest eigenvalue of a symmetric matrix of four rows, by Jacobi's rotations. */
function greatestOf(matrix: number[][]): [number, number, number, number] {
  const m = matrix.map((row) => [...row]);
  const v = m.map((_, i) => m.map((__, j) => (i === j ? 1 : 0)));
  const get = (of: number[][], i: number, j: number): number => (of[i] as number[])[j] as number;
  for (let sweep = 0; sweep < SWEEPS; sweep++)
    for (let p = 0; p < 4; p++)
      for (let q = p + 1; q < 4; q++) {
        const off = get(m, p, q);
        if (off === 0) continue;
        const angle = Math.atan2(2 * off, get(m, q, q) - get(m, p, p)) / 2;
        const [c, t] = cosSin(angle);
        for (const of of [m, v])
          for (const row of of) {
            const [one, two] = [row[p] as number, row[q] as number];
            row[p] = c * one - t * two;
            row[q] = t * one + c * two;
          }
        const [up, uq] = [[...(m[p] as number[])], [...(m[q] as number[])]];
        m[p] = up.map((value, k) => c * value - t * (uq[k] as number));
        m[q] = up.map((value, k) => t * value + c * (uq[k] as number));
      }
  const best = [0, 1, 2, 3].reduce((top, i) => (get(m, i, i) > get(m, top, top) ? i : top), 0);
  const found = v.map((row) => row[best] as number);
  const size = Math.hypot(...found);
  return found.map((value) => value / size) as [number, number, number, number];
}
