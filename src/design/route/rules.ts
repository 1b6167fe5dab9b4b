import { leastSpare, type Found, type March } from '../../geom/line-to-solids.js';
import { leastSpareWithin } from '../../geom/line-to-line.js';
import { angleOf, STRIDE, straightOf, type PackedLine } from '../../geom/packed-line.js';
import { tolerance } from '../../base/tolerance.js';
import { surroundingsOf, type RouteProblem } from './problem.js';
import { type BendStock } from './stock.js';

const stockOf = (problem: RouteProblem, clr: number): BendStock => {
  const found = problem.stock.find((one) => one.clr === clr);
  if (found === undefined) throw new RangeError(`no bend of ${clr} on the rack`);
  return found;
};

/**
 * Whether a line can be made at all: every angle within the limits and the stock's, and no straight short.
 * @param slack how much (mm) a straight may fall short of its least
 */
export function canBeMade(
  problem: RouteProblem,
  line: PackedLine,
  clrs: readonly number[],
  slack = 0,
): boolean {
  const { stub, between, lastStraight, leastAngle, largestAngle } = problem.limits;
  const bends = (line.pieces - 1) / 2;
  for (let i = 0; i <= bends; i++) {
    const least = i === 0 ? stub : i === bends ? lastStraight : between;
    // Written so that a length that is no number fails.
    if (!(straightOf(line, i) >= least - slack)) return false;
    if (i === bends) break;
    const angle = angleOf(line, i);
    if (!(angle >= leastAngle && angle <= largestAngle)) return false;
    if (angle > stockOf(problem, clrs[i] as number).largestAngle + tolerance.sameDirection) return false;
  }
  return true;
}

/**
 * Fewest welds of a primary, counted from stock of a larger angle: every bend keeps one leg, which may cover
 * the straight before it or after it; a straight that no leg covers is a piece of its own. With k bends:
 * k + straights not covered, the weld at the flange counted and the collector's not.
 * The legs go to the straights in turn from the flange, which covers as many as can be.
 */
export function weldsByLegs(problem: RouteProblem, line: PackedLine, clrs: readonly number[]): number {
  const bends = (line.pieces - 1) / 2;
  let bare = 0;
  let coveredBefore = false;
  for (let i = 0; i <= bends; i++) {
    const straight = straightOf(line, i);
    if (coveredBefore || straight <= 0) {
      coveredBefore = false;
      // Nothing more to cover here: the next bend's leg is free for what follows it.
      if (i < bends && straightOf(line, i + 1) <= stockOf(problem, clrs[i] as number).leg)
        coveredBefore = true;
      continue;
    }
    if (i === bends) {
      bare++;
      break;
    }
    const { leg } = stockOf(problem, clrs[i] as number);
    if (straight <= leg) continue;
    bare++;
    coveredBefore = straightOf(line, i + 1) <= leg;
  }
  return bends + bare;
}

/** Least spare (mm) of a primary to everything that stands still; `found` names it by span. */
export interface FoundObstacle extends Found {
  span: 'beginning' | 'middle' | 'lastStraight';
}

const one: Found = { solid: -1, station: 0 };

/**
 * The least spare (mm) between a primary and the obstacles round it, span by span: up to the waiver its own
 * head does not count (nor along a first straight whose axis has cleared it), over the last straight the collector does not.
 */
export function spareToObstacles(
  problem: RouteProblem,
  line: PackedLine,
  start: number,
  slot: number,
  march: March,
  found?: FoundObstacle,
): number {
  const around = surroundingsOf(problem, start, slot);
  const radius = problem.od / 2;
  const end = line.data[(line.pieces - 1) * STRIDE + 1] as number;
  const { until, clearTo } = (problem.starts[start] as RouteProblem['starts'][number]).waiver;
  const first = line.data[2] as number;
  const waiver = Math.min(end, first > until && first <= clearTo ? first : until);
  let { cap } = march;
  if (found) found.solid = -1;
  for (const span of ['middle', 'beginning', 'lastStraight'] as const) {
    const from = span === 'beginning' ? 0 : span === 'middle' ? waiver : end;
    const to = span === 'beginning' ? waiver : span === 'middle' ? end : line.length;
    const spare = leastSpare(
      line,
      around[span],
      [from, to],
      radius,
      { ...march, cap },
      found ? one : undefined,
    );
    if (spare < cap && found) {
      found.solid = one.solid;
      found.station = one.station;
      found.span = span;
    }
    cap = Math.min(cap, spare);
    if (cap < march.stop) return cap;
  }
  return cap;
}

/** Least spare (mm) of a primary against itself. */
export function spareToItself(
  problem: RouteProblem,
  line: PackedLine,
  clrs: readonly number[],
  march: March,
): number {
  const apart = Math.PI * Math.min(...clrs);
  return leastSpareWithin(line, apart, problem.od + problem.clearOfItself, march);
}
