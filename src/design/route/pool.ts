import { straightOf } from '../../geom/packed-line.js';
import { lineThrough, type Way } from './candidate.js';
import type { RouteProblem } from './problem.js';
import { lengthAt, packWays, roomAt, weldsAt, type PackedWays } from './ways.js';

/** Candidates found so far, by port, then slot. */
export type Pool = readonly (readonly PackedWays[])[];

export const emptyPool = ({ starts, slots }: RouteProblem): Pool =>
  starts.map(() => slots.map(() => packWays([])));

/** Three-weld routes stay dense; of the others, near-twins within this (mm) are dropped. */
const TWINS = 14;
const LENGTH_BIN = 16;
const STRAIGHT_BIN = 40;

/**
 * A sieve against near-twins: true for the first of its kind. Routes of the fewest welds all pass, as they
 * are few and choosing among them decides.
 */
export function twinSieve(fewest: number): (route: Way) => boolean {
  const seen = new Set<string>();
  return (route) => {
    if (route.welds <= fewest) return true;
    const { points, clrs, length } = route;
    let key = `${route.welds} ${Math.round(length / LENGTH_BIN)}`;
    for (let m = 3; m < 3 * clrs.length + 3; m++) key += ` ${Math.round((points[m] as number) / TWINS)}`;
    key += ` ${Math.floor(straightOf(lineThrough(points, clrs, clrs.length), 0) / STRAIGHT_BIN)}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  };
}

/** Fewest welds by port and slot among what the pool has near a length; Infinity where there is nothing. */
export const fewestWeldsNear = (pool: Pool, length: number, window: number): number[][] =>
  pool.map((row) =>
    row.map((routes) => {
      let least = Infinity;
      for (let o = 0; o < routes.length; o += roomAt(routes, o))
        if (weldsAt(routes, o) < least && Math.abs(lengthAt(routes, o) - length) < window)
          least = weldsAt(routes, o);
      return least;
    }),
  );
