import type { Crew } from './crew.js';
import type { RouteProblem } from './problem.js';
import { ALONG, OPEN, SHUT, type FamilyBins, type PairOrder } from './settle-bins.js';

/** How hard to look for families of routes that shut each other out. */
export interface PairProof {
  /** Half width (mm) at which two cells that do not clash are let get along. */
  readonly half: number;
  /**
   * Clashes asked at most, for any two families; beyond that they are taken to get along, so that the count
   * errs on the safe side.
   */
  readonly clashes: number;
}

/** Bins of lengths, and where a primary of the fewest welds may be in those that are asked about. */
export interface AskedBins extends FamilyBins {
  readonly mayBe: (start: number, slot: number, bin: number) => boolean;
}

/** A port with the slot its primary takes. */
type Family = readonly [start: number, slot: number];

/**
 * By bin of lengths, the most primaries that may have the fewest welds together: two families of routes shut
 * each other out in a bin where no cell of one and cell of the other share a length in it without a clash.
 * Families are taken to get along until a largest set hangs on it; then those of it are settled, and the sets
 * looked for again.
 */
export function mostTogether(
  problem: RouteProblem,
  bins: AskedBins,
  { half, clashes }: PairProof,
  crew: Crew,
): readonly number[] {
  const count = problem.starts.length;
  const known = new Map<number, Uint8Array>();
  const keyOf = ([i, j]: Family, [k, l]: Family): number => ((i * count + j) * count + k) * count + l;
  const every = Array.from({ length: bins.count }, (_, bin) => bin);
  const { from, width } = bins;
  for (;;) {
    const orders = new Map<number, PairOrder>();
    const sets = every.map((bin) => {
      const getAlong = (one: Family, other: Family): boolean =>
        (known.get(keyOf(one, other))?.[bin] ?? ALONG) === ALONG;
      const set = largestSet(problem, (i, j) => bins.mayBe(i, j, bin), getAlong);
      for (const [n, other] of set.entries())
        for (const one of set.slice(0, n)) {
          const key = keyOf(one, other);
          if (known.has(key) || orders.has(key)) continue;
          const settled = Uint8Array.from(every, (at) =>
            bins.mayBe(...one, at) && bins.mayBe(...other, at) ? OPEN : SHUT,
          );
          orders.set(key, { one, other, bins: { from, width, count: bins.count }, settled, half, clashes });
        }
      return set;
    });
    if (orders.size === 0) return sets.map((set) => set.length);
    const settled = crew.run('pairs', [...orders.values()]);
    // What was not looked at may get along.
    [...orders.keys()].forEach((key, n) =>
      known.set(key, settled[n] ?? new Uint8Array(bins.count).fill(ALONG)),
    );
  }
}

/** The most primaries, each with a slot of its own, that may be and get along in pairs. */
function largestSet(
  { starts, orders }: RouteProblem,
  may: (i: number, j: number) => boolean,
  getAlong: (one: Family, other: Family) => boolean,
): readonly Family[] {
  const count = starts.length;
  let most: readonly Family[] = [];
  const go = (i: number, taken: readonly Family[]): void => {
    if (taken.length > most.length) most = taken;
    if (i === count || taken.length + count - i <= most.length) return;
    for (let j = 0; j < count; j++) {
      if (!may(i, j) || taken.some(([, slot]) => slot === j)) continue;
      if (orders && !orders.some((order) => order[i] === j && taken.every(([k, l]) => order[k] === l)))
        continue;
      if (taken.every((other) => getAlong(other, [i, j]))) go(i + 1, [...taken, [i, j]]);
    }
    go(i + 1, taken);
  };
  go(0, []);
  return most;
}
