import { leastSpareBetween } from '../../geom/line-to-line.js';
import type { Candidate } from './candidate.js';
import type { RouteProblem } from './problem.js';
import { spareToItself, spareToObstacles, type FoundObstacle } from './rules.js';

/** What a primary comes nearest to, by what is left over what is asked. */
export interface NearestThing {
  readonly primary: string;
  /** A keep-out's name, another primary's, or `itself`. */
  readonly to: string;
  /** Where along the primary, mm; undefined where it is itself. */
  readonly station: number | undefined;
  /** Over the clearance asked there, mm; measured, at most `bound` above the truth. */
  readonly spare: number;
  readonly bound: number;
  /** Where the job gives what it is nearest to; undefined for another primary, itself and the collector's parts. */
  readonly path: string | undefined;
  /** The clearance asked of it (mm); undefined for another primary and itself. */
  readonly asked: number | undefined;
}

/** A primary as far as its distances go. */
type Measured = Pick<Candidate, 'start' | 'slot' | 'line' | 'clrs'>;

const FLOOR = 0.05;
/** Further off (mm) than this is far enough to leave unsaid. */
const FAR = 1000;

/**
 * For each primary of a set, what it comes nearest to.
 * @param floor smallest step of the march, mm: what is told lies at most that above the truth
 */
export function nearestThings(
  problem: RouteProblem,
  routes: readonly Measured[],
  floor = FLOOR,
): readonly NearestThing[] {
  const march = { floor, stop: -Infinity };
  return routes.map((route) => {
    const { line, start, slot, clrs } = route;
    const name = problem.starts[start]?.id ?? '';
    const found: FoundObstacle = { obstacle: undefined, station: 0 };
    let spare = spareToObstacles(problem, line, start, slot, { ...march, cap: FAR }, found);
    const { obstacle } = found;
    let [to, path, asked] = [obstacle?.name ?? 'nothing', obstacle?.path, obstacle?.clear];
    let station: number | undefined = found.station;
    for (const other of routes) {
      if (other === route) continue;
      const at = { station: 0 };
      const apart = leastSpareBetween(line, other.line, problem.apart, { ...march, cap: spare }, at);
      if (apart >= spare) continue;
      [spare, to, station] = [apart, problem.starts[other.start]?.id ?? '', at.station];
      [path, asked] = [undefined, undefined];
    }
    const own = spareToItself(problem, start, line, clrs, { ...march, cap: spare });
    if (own < spare) {
      [spare, to, station] = [own, 'itself', undefined];
      [path, asked] = [undefined, undefined];
    }
    return { primary: name, to, station, spare, bound: floor, path, asked };
  });
}
