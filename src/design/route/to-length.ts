import { tolerance } from '../../base/tolerance.js';
import { lengthThrough } from '../../geom/length-through.js';
import { builtLengthOf, type RouteProblem } from './problem.js';

const STEPS = 8;
/** Step of the difference quotients, mm. */
const SMALL = 0.01;
/** Below this the length does not answer to any change (squared gradient). */
const DEAD = 1e-4;

const gradient = new Float64Array(32);

/**
 * Brings a route to a length by Newton's method along the gradient of its length, over all that may change:
 * both arms and every inner intersection point. Works on the points in place; the ends stay.
 * @param whole length of the primary, what stands of it included, mm
 * @returns false where it does not come within 1e-8 mm in a few steps
 */
export function toLength(
  problem: RouteProblem,
  start: number,
  slot: number,
  points: Float64Array,
  clrs: readonly number[],
  whole: number,
): boolean {
  const length = whole - builtLengthOf(problem, start);
  const bends = clrs.length;
  const inner = 3 * (bends - 2);
  const d = (problem.starts[start] as RouteProblem['starts'][number]).direction;
  const e = (problem.slots[slot] as RouteProblem['slots'][number]).direction;
  let over = lengthThrough(points, clrs, bends) - length;
  for (let step = 0; step < STEPS; step++) {
    if (Math.abs(over) < tolerance.kernelPoint / 10) return true;
    let square = 0;
    for (let m = 0; m < inner + 2; m++) {
      nudge(points, bends, inner, m, SMALL, d, e);
      const slope = (lengthThrough(points, clrs, bends) - length - over) / SMALL;
      nudge(points, bends, inner, m, -SMALL, d, e);
      gradient[m] = slope;
      square += slope * slope;
    }
    if (!(square > DEAD)) return false;
    for (let m = 0; m < inner + 2; m++)
      nudge(points, bends, inner, m, (-over / square) * (gradient[m] as number), d, e);
    over = lengthThrough(points, clrs, bends) - length;
    if (!(Math.abs(over) < 200)) return false;
  }
  return Math.abs(over) < tolerance.kernelPoint;
}

/** Moves the m-th of what may change by `by` mm: inner coordinates first, then the first arm, then the last. */
function nudge(
  points: Float64Array,
  bends: number,
  inner: number,
  m: number,
  by: number,
  d: readonly [number, number, number],
  e: readonly [number, number, number],
): void {
  if (m < inner) {
    points[6 + m] = (points[6 + m] as number) + by;
    return;
  }
  const o = m === inner ? 3 : 3 * bends;
  const along = m === inner ? d : e;
  const way = m === inner ? by : -by;
  for (let i = 0; i < 3; i++) points[o + i] = (points[o + i] as number) + way * (along[i] as number);
}
