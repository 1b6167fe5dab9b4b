import type { Vector } from '../../base/vectors.js';
import { doubtOf, leastDistanceTo, type SolidSet } from '../../geom/solids.js';
import { roundAt, surroundingsOf, type RouteProblem } from './problem.js';

/** How far a primary's first and last straight can go at all before they run into something, mm. */
export interface ArmReach {
  readonly first: number;
  readonly last: number;
}

const FINEST = 0.25;

/**
 * Marches the port's axis and the slot's axis until they run into an obstacle. No straight can be longer than
 * that; the window's end where nothing is met.
 */
export function armReach(problem: RouteProblem, start: number, slot: number): ArmReach {
  const around = surroundingsOf(problem, start, slot);
  const from = problem.starts[start];
  const to = problem.slots[slot];
  if (from === undefined || to === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  const most = problem.limits.window.to;
  const reach = (setAt: (s: number) => SolidSet, spot: (s: number) => Vector): number => {
    for (let s = 0; s < most;) {
      const set = setAt(s);
      const spare = leastDistanceTo(set, ...spot(s)) - problem.od / 2;
      // Run into it for certain, even where it is only a mesh of what stands there.
      if (spare < -doubtOf(set)) return s;
      s += Math.max(FINEST, spare);
    }
    return most;
  };
  const [p, d] = [from.at, from.direction];
  const [q, e] = [to.at, to.direction];
  return {
    first: reach(
      (s) => roundAt(around, s),
      (s) => [p[0] + s * d[0], p[1] + s * d[1], p[2] + s * d[2]],
    ),
    last: reach(
      () => around.lastStraight.solids,
      (s) => [q[0] - s * e[0], q[1] - s * e[1], q[2] - s * e[2]],
    ),
  };
}
