import { leastSpare, type Found, type March } from '../../geom/line-to-solids.js';
import { leastSpareWithin } from '../../geom/line-to-line.js';
import { angleOf, STRIDE, straightOf, type PackedLine } from '../../geom/packed-line.js';
import { joined } from './built.js';
import type { Obstacle } from './obstacles.js';
import { surroundingsOf, type Round, type RouteProblem } from './problem.js';

/**
 * Whether a line keeps the job's limits: every angle within them, and no straight short.
 * @param slack how much (mm) a straight may fall short of its least
 */
export function keepsLimits(problem: RouteProblem, start: number, line: PackedLine, slack = 0): boolean {
  const { stub } = problem.starts[start] as RouteProblem['starts'][number];
  const { between, lastStraight, leastAngle, largestAngle } = problem.limits;
  const bends = (line.pieces - 1) / 2;
  for (let i = 0; i <= bends; i++) {
    const least = i === 0 ? stub : i === bends ? lastStraight : between;
    // Written so that a length that is no number fails.
    if (!(straightOf(line, i) >= least - slack)) return false;
    if (i === bends) break;
    const angle = angleOf(line, i);
    if (!(angle >= leastAngle && angle <= largestAngle)) return false;
  }
  return true;
}

const straights = new Float64Array(16);
const angles = new Float64Array(16);

/**
 * Fewest welds of a primary from the rack, the one at the flange counted and the collector's not; Infinity
 * where it cannot be cut from the rack. The count of the piece plan, but for stretches where no weld may stand.
 */
export function weldsOfLine(
  problem: RouteProblem,
  start: number,
  line: PackedLine,
  clrs: readonly number[],
): number {
  const bends = clrs.length;
  for (let i = 0; i <= bends; i++) {
    straights[i] = straightOf(line, i);
    if (i < bends) angles[i] = angleOf(line, i);
  }
  return (problem.starts[start] as RouteProblem['starts'][number]).countWelds(straights, clrs, angles);
}

/** The obstacle that a primary comes nearest to. */
export interface FoundObstacle {
  /** Undefined where all is further off than the cap. */
  obstacle: Obstacle | undefined;
  /** Where along the primary, mm. */
  station: number;
}

const one: Found = { solid: -1, station: 0 };

/**
 * The least spare (mm) between a primary and the obstacles round it, span by span: up to the waiver its own
 * heads do not count (nor along a first straight whose axis has cleared them), over the last straight the collector does not.
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
  const waived = Math.min(end, first > until && first <= clearTo ? first : until);
  let { cap } = march;
  if (found) found.obstacle = undefined;
  /** Looks at one span; true where that is enough. */
  const look = (round: Round, from: number, to: number): boolean => {
    const spare = leastSpare(
      line,
      round.solids,
      [from, to],
      radius,
      { ...march, cap },
      found ? one : undefined,
    );
    if (spare < cap && found) {
      found.obstacle = round.named[one.solid];
      found.station = one.station;
    }
    cap = Math.min(cap, spare);
    return cap < march.stop;
  };
  if (look(around.middle, waived, end)) return cap;
  let from = 0;
  for (const beginning of around.beginnings) {
    const to = beginning.until === until ? waived : Math.min(waived, beginning.until);
    if (look(beginning, from, to)) return cap;
    from = to;
  }
  look(around.lastStraight, end, line.length);
  return cap;
}

/** Least spare (mm) of a primary against itself, what stands of it included. */
export function spareToItself(
  problem: RouteProblem,
  start: number,
  line: PackedLine,
  clrs: readonly number[],
  march: March,
): number {
  const built = problem.starts[start]?.built;
  const radii = [...clrs, ...(built?.rows ?? []).flatMap((row) => ('clr' in row ? [row.clr] : []))];
  const apart = Math.PI * Math.min(...radii);
  return leastSpareWithin(
    built ? joined(built, line) : line,
    apart,
    problem.od + problem.clearOfItself,
    march,
  );
}
