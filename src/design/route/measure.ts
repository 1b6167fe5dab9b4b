import { leastSpareBetween } from '../../geom/line-to-line.js';
import type { Candidate } from './candidate.js';
import type { RouteProblem } from './problem.js';
import { spareToItself, spareToObstacles } from './rules.js';

/** Spares (mm over what is asked) of a set of primaries: to obstacles by primary, and between pairs. */
export interface Spares {
  readonly still: number[];
  /** Row by row, count x count; what stands on the diagonal is not looked at. */
  readonly pairs: Float64Array;
}

/** All spares of a set, measured with a floor, none above the cap. */
export function sparesOf(
  problem: RouteProblem,
  routes: readonly Candidate[],
  floor: number,
  cap: number,
): Spares {
  const count = routes.length;
  const march = { floor, stop: -Infinity, cap };
  // What is kept is as the user gave it: only the others answer for their distance to it.
  const isKept = ({ start }: Candidate): boolean => problem.kept[start] !== undefined;
  const still = routes.map((route) =>
    isKept(route) ? cap : spareToObstacles(problem, route.line, route.start, route.slot, march),
  );
  const pairs = new Float64Array(count * count).fill(cap);
  for (const [i, a] of routes.entries())
    for (const [j, b] of routes.entries()) {
      if (j <= i || (isKept(a) && isKept(b))) continue;
      const spare = leastSpareBetween(a.line, b.line, problem.apart, march);
      pairs[i * count + j] = spare;
      pairs[j * count + i] = spare;
    }
  return { still, pairs };
}

export const leastOf = ({ still, pairs }: Spares): number => {
  let least = Infinity;
  for (const spare of still) if (spare < least) least = spare;
  for (const spare of pairs) if (spare < least) least = spare;
  return least;
};

/** Softness of blame (mm): spares within this of the least share it. */
const SOFT = 1.5;

/** How much a spare weighs against a set: exp(-spare / softness). */
export const blame = (spare: number): number => Math.exp(-Math.max(-60, spare) / SOFT);

/** The blame of all spares of a set, pairs counted once. */
export const blameOf = ({ still, pairs }: Spares): number =>
  still.reduce((sum, spare) => sum + blame(spare), 0) +
  pairs.reduce((sum, spare) => sum + blame(spare), 0) / 2;

/** Floor (mm) of the marches that prove a set. */
export const PROVING = 0.05;

/**
 * A spare (mm) that the set certainly has everywhere, itself included: the spare measured less what the
 * march may have missed. 0 or more proves that all is as clear as asked.
 */
export function provenSpare(problem: RouteProblem, routes: readonly Candidate[], cap = 40): number {
  const march = { floor: PROVING, stop: -Infinity, cap };
  const least = leastOf(sparesOf(problem, routes, PROVING, cap)) - PROVING / 2;
  const own = routes
    .filter(({ start }) => problem.kept[start] === undefined)
    .map((route) => spareToItself(problem, route.start, route.line, route.clrs, march) - PROVING);
  return Math.min(least, ...own);
}

/** The welds of a set, by its primaries' legs. */
export const weldsOf = (routes: readonly Candidate[]): number =>
  routes.reduce((sum, route) => sum + route.welds, 0);
