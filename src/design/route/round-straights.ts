import { dot3, type Vector } from '../../base/vectors.js';

/** Straights are rounded to this (mm): the marks of a steel rule. Common practice, no source. */
const STRAIGHT_STEP = 0.5;

/** Straights are moved by no more than is needed; this keeps that in bounds where they nearly lie in one plane. */
const RIDGE = 1e-6;
/** A change of the straights that alters the length by less than this (mm a mm) is not used to reach a length. */
const DULL = 0.01;

/** Bends that are settled: the flow along each straight, what the straights have to span, and what the bends add. */
export interface Frame {
  readonly flows: readonly Vector[];
  /** From the port to the slot, less both tangents of every bend, mm. */
  readonly gap: Vector;
  /** Length of all bends, mm. */
  readonly arcs: number;
}

/**
 * Straights in whole steps that span a gap best: first exact ones, as near to those given as can be and of the
 * length aimed at where they leave room for that, then whole ones about them.
 * @param near the straights of the exact route
 * @param least what each straight may be at least
 * @param within how far (mm) they may miss the slot
 * @returns undefined where none keeps the least and the lengths; `distance` (mm) is what they miss the slot by
 */
export function roundStraights(
  { flows, gap, arcs }: Frame,
  near: readonly number[],
  least: readonly number[],
  { from, aim, to }: { readonly from: number; readonly aim: number; readonly to: number },
  within: number,
): { readonly straights: readonly number[]; readonly distance: number } | undefined {
  const exact = exactStraights(flows, gap, near, aim - arcs);
  const sum = exact.reduce((all, each) => all + each, arcs);
  const slack = exact.length * STRAIGHT_STEP;
  if (!(sum > from - slack && sum < to + slack)) return undefined;
  if (exact.some((each, i) => each < (least[i] as number) - 2 * STRAIGHT_STEP)) return undefined;
  // Three whole ones about each where they are few, else two.
  const choices = exact.map((each, i): readonly number[] => {
    const steps = each / STRAIGHT_STEP;
    const nearest = Math.round(steps);
    const some =
      exact.length <= 4
        ? [nearest - 1, nearest, nearest + 1]
        : [nearest, steps > nearest ? nearest + 1 : nearest - 1];
    return some
      .map((whole) => whole * STRAIGHT_STEP)
      .filter((whole) => whole >= 0 && whole >= (least[i] as number));
  });
  const chosen: number[] = [];
  let best: readonly number[] | undefined;
  let shortest = within * within;
  const settle = (i: number, x: number, y: number, z: number, length: number): void => {
    const flow = flows[i];
    if (flow === undefined) {
      const square = x * x + y * y + z * z;
      if (!(square <= shortest && length >= from && length <= to)) return;
      shortest = square;
      best = [...chosen];
      return;
    }
    for (const straight of choices[i] as readonly number[]) {
      chosen[i] = straight;
      settle(
        i + 1,
        x - straight * flow[0],
        y - straight * flow[1],
        z - straight * flow[2],
        length + straight,
      );
    }
  };
  settle(0, gap[0], gap[1], gap[2], arcs);
  return best && { straights: best, distance: Math.sqrt(shortest) };
}

/** Exact straights that span a gap with the least change, and sum up to `sum` where there are more than needed. */
function exactStraights(
  flows: readonly Vector[],
  gap: Vector,
  near: readonly number[],
  sum: number,
): readonly number[] {
  // The columns of A are the flows: M = A A' with a ridge, `left` what the straights given leave of the gap.
  let [xx, xy, xz, yy, yz, zz] = [RIDGE, 0, 0, RIDGE, 0, RIDGE];
  let [x, y, z] = gap;
  const all: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < flows.length; i++) {
    const [u, v, w] = flows[i] as Vector;
    const straight = near[i] as number;
    xx += u * u;
    xy += u * v;
    xz += u * w;
    yy += v * v;
    yz += v * w;
    zz += w * w;
    x -= straight * u;
    y -= straight * v;
    z -= straight * w;
    all[0] += u;
    all[1] += v;
    all[2] += w;
  }
  // Cramer's rule: the inverse of M is its cofactors over its determinant.
  const [a, b, c] = [yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy];
  const [e, f, i] = [xx * zz - xz * xz, xy * xz - xx * yz, xx * yy - xy * xy];
  const size = xx * a + xy * b + xz * c;
  const solved = (p: number, q: number, r: number): Vector => [
    (a * p + b * q + c * r) / size,
    (b * p + e * q + f * r) / size,
    (c * p + f * q + i * r) / size,
  ];
  const pull = solved(x, y, z);
  const first = flows.map((flow, k) => (near[k] as number) + dot3(flow, pull));
  // What every straight can add to the length without moving the end.
  const held = solved(...all);
  const freely = flows.map((flow) => 1 - dot3(flow, held));
  const worth = freely.reduce((total, each) => total + each, 0);
  if (!(worth > DULL)) return first;
  const lacking = (sum - first.reduce((total, each) => total + each, 0)) / worth;
  return first.map((each, k) => each + lacking * (freely[k] as number));
}
