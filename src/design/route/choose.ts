import { leastSpareBetween } from '../../geom/line-to-line.js';
import { type Candidate } from './candidate.js';
import { type RouteProblem } from './problem.js';

/** What is asked of a choice. */
export interface Choice {
  /** Only choices of fewer welds than this are looked for. */
  readonly under: number;
  /** Spare (mm) asked between tubes; below 0 lets them overlap, for a repair to cure. */
  readonly spare: number;
  /** Ends, with the best so far, after so many nodes. */
  readonly nodes: number;
  /**
   * Instead of the best, so many sets under the limit, each with another route of the primary settled first.
   */
  readonly many?: number;
}

/** Coarse floor (mm) of the march between two tubes. */
const COARSE = 2;

export interface Chosen {
  /** The best set, or as many as were asked for; empty where there is none. */
  readonly sets: readonly (readonly Candidate[])[];
  readonly nodes: number;
}

/**
 * One route a primary, no slot twice, all pairs clear of each other, with the fewest welds: branch and bound.
 * The primary with the fewest routes left is settled next; whether two routes clear each other is worked out
 * only when asked, and once.
 * @param offered by primary, in the order in which they are tried: fewest welds first, then the roomiest
 */
export function chooseFewestWelds(
  problem: RouteProblem,
  offered: readonly (readonly Candidate[])[],
  { under, spare, nodes: mostNodes, many }: Choice,
): Chosen {
  const all = offered.flat();
  const total = all.length;
  const words = (total + 31) >>> 5;
  const primaryOf = offered.flatMap((list, primary) => list.map(() => primary));
  const firstOf = offered.map((_, i) => offered.slice(0, i).reduce((sum, list) => sum + list.length, 0));
  firstOf.push(total);
  const count = offered.length;
  if (offered.some((list) => list.length === 0)) return { sets: [], nodes: 0 };
  /** 0 not yet asked, 1 clear, 2 not. */
  const known = new Uint8Array(total * total);
  const clear = (x: number, y: number): boolean => {
    const at = x < y ? x * total + y : y * total + x;
    if (known[at] === 0) {
      const [a, b] = [all[x] as Candidate, all[y] as Candidate];
      const march = { floor: COARSE, stop: spare, cap: spare };
      known[at] = leastSpareBetween(a.line, b.line, problem.apart, march) >= spare ? 1 : 2;
    }
    return known[at] === 1;
  };
  const chosen = new Int32Array(count).fill(-1);
  const orderAllows = (): boolean =>
    problem.orders === undefined ||
    problem.orders.some((order) =>
      chosen.every((x, primary) => x < 0 || (all[x] as Candidate).slot === order[primary]),
    );
  const found: number[][] = [];
  /** True while the search goes back to its first settled primary. */
  let goBack = false;
  let bestWelds = under;
  let nodes = 0;
  const has = (domain: Uint32Array, x: number): boolean =>
    (((domain[x >>> 5] as number) >>> (x & 31)) & 1) === 1;

  const fewestBySlot = new Float64Array(count * count);
  const sums = new Float64Array(1 << count);
  /** Fewest welds of the primaries not yet settled, each with a slot of its own, by sets of slots taken. */
  const leastRest = (settled: Int32Array): number => {
    sums.fill(Infinity);
    sums[0] = 0;
    let rows = 0;
    for (let primary = 0; primary < count; primary++) {
      if ((settled[primary] as number) >= 0) continue;
      // Down from the fullest set, so that a row is never used twice.
      for (let used = sums.length - 1; used >= 0; used--) {
        const so = sums[used] as number;
        if (so === Infinity) continue;
        sums[used] = Infinity;
        for (let slot = 0; slot < count; slot++) {
          const next = used | (1 << slot);
          if (next === used) continue;
          const sum = so + (fewestBySlot[primary * count + slot] as number);
          if (sum < (sums[next] as number)) sums[next] = sum;
        }
      }
      rows++;
    }
    let least = rows === 0 ? 0 : Infinity;
    for (const sum of sums) if (sum < least) least = sum;
    return least;
  };

  const settle = (domain: Uint32Array, left: number, welds: number): void => {
    if (nodes++ > mostNodes) return;
    let next = -1;
    let fewest = Infinity;
    fewestBySlot.fill(Infinity);
    for (let primary = 0; primary < count; primary++) {
      if ((chosen[primary] as number) >= 0) continue;
      let options = 0;
      for (let x = firstOf[primary] as number; x < (firstOf[primary + 1] as number); x++) {
        if (!has(domain, x)) continue;
        const { slot, welds: own } = all[x] as Candidate;
        options++;
        const at = primary * count + slot;
        if (own < (fewestBySlot[at] as number)) fewestBySlot[at] = own;
      }
      if (options < fewest) {
        fewest = options;
        next = primary;
      }
    }
    if (fewest === 0 || welds + leastRest(chosen) >= bestWelds) return;
    for (let x = firstOf[next] as number; x < (firstOf[next + 1] as number); x++) {
      if (!has(domain, x)) continue;
      const route = all[x] as Candidate;
      chosen[next] = x;
      if (orderAllows()) {
        const sum = welds + route.welds;
        if (left === 1) {
          if (sum < bestWelds) {
            if (many === undefined) {
              bestWelds = sum;
              found.length = 0;
            } else goBack = true;
            found.push([...chosen]);
          }
        } else {
          const rest = new Uint32Array(words);
          for (let y = 0; y < total; y++) {
            if (!has(domain, y) || (chosen[primaryOf[y] as number] as number) >= 0) continue;
            if ((all[y] as Candidate).slot === route.slot || !clear(x, y)) continue;
            rest[y >>> 5] = (rest[y >>> 5] as number) | (1 << (y & 31));
          }
          settle(rest, left - 1, sum);
        }
      }
      chosen[next] = -1;
      if (left === count) goBack = false;
      if (goBack || nodes > mostNodes || found.length >= (many ?? Infinity)) return;
    }
  };
  settle(new Uint32Array(words).fill(0xffffffff), count, 0);
  return { sets: found.map((set) => set.map((x) => all[x] as Candidate)), nodes };
}
