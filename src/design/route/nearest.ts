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
}

const FLOOR = 0.05;
/** Further off (mm) than this is far enough to leave unsaid. */
const FAR = 1000;

/** For each primary of a set, what it comes nearest to. */
export function nearestThings(problem: RouteProblem, routes: readonly Candidate[]): readonly NearestThing[] {
  const march = { floor: FLOOR, stop: -Infinity };
  return routes.map((route) => {
    const { line, start, slot, clrs } = route;
    const name = problem.starts[start]?.id ?? '';
    const found: FoundObstacle = { obstacle: undefined, station: 0 };
    let spare = spareToObstacles(problem, line, start, slot, { ...march, cap: FAR }, found);
    let to = found.obstacle?.name ?? 'nothing';
    let station: number | undefined = found.station;
    for (const other of routes) {
      if (other === route) continue;
      const at = { station: 0 };
      const apart = leastSpareBetween(line, other.line, problem.apart, { ...march, cap: spare }, at);
      if (apart < spare) [spare, to, station] = [apart, problem.starts[other.start]?.id ?? '', at.station];
    }
    const own = spareToItself(problem, line, clrs, { ...march, cap: spare });
    if (own < spare) [spare, to, station] = [own, 'itself', undefined];
    return { primary: name, to, station, spare, bound: FLOOR };
  });
}
