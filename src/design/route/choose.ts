import { leastSpareBetween } from '../../geom/line-to-line.js';
import type { Candidate } from './candidate.js';
import type { RouteProblem } from './problem.js';

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
 * only when asked, and once. A route is left out where its welds over the fewest of its primary are more than
 * can be spared.
 * @param offered by primary, in the order in which they are tried: fewest welds first, then the roomiest
 */
export function chooseFewestWelds(
  problem: RouteProblem,
  offered: readonly (readonly Candidate[])[],
  { under, spare, nodes: mostNodes, many }: Choice,
): Chosen {
  const all = offered.flat();
  const count = offered.length;
  if (offered.some((list) => list.length === 0)) return { sets: [], nodes: 0 };
  const primaryOf = Int32Array.from(offered.flatMap((list, primary) => list.map(() => primary)));
  const slotOf = Int32Array.from(all.map((route) => route.slot));
  const weldsOf = Int32Array.from(all.map((route) => route.welds));
  const clear = clearPairs(problem, all, spare);
  const leastRest = restBound(count);
  const chosen = new Int32Array(count).fill(-1);
  const orderAllows = (): boolean =>
    problem.orders === undefined ||
    problem.orders.some((order) => chosen.every((x, primary) => x < 0 || slotOf[x] === order[primary]));
  const found: number[][] = [];
  /** True while the search goes back to its first settled primary. */
  let goBack = false;
  let bestWelds = under;
  let nodes = 0;

  const settle = (open: Int32Array, left: number, welds: number): void => {
    if (nodes++ > mostNodes) return;
    const fewestBySlot = new Float64Array(count * count).fill(Infinity);
    const fewest = new Float64Array(count).fill(Infinity);
    for (const x of open) {
      const [primary, own] = [primaryOf[x] as number, weldsOf[x] as number];
      const at = primary * count + (slotOf[x] as number);
      if (own < (fewestBySlot[at] as number)) fewestBySlot[at] = own;
      if (own < (fewest[primary] as number)) fewest[primary] = own;
    }
    if (welds + leastRest(fewestBySlot, chosen) >= bestWelds) return;
    let toSpare = bestWelds - 1 - welds;
    for (let primary = 0; primary < count; primary++)
      if ((chosen[primary] as number) < 0) toSpare -= fewest[primary] as number;
    const over = (x: number): number => (weldsOf[x] as number) - (fewest[primaryOf[x] as number] as number);
    const options = new Int32Array(count);
    for (const x of open) if (over(x) <= toSpare) (options[primaryOf[x] as number] as number)++;
    let next = -1;
    for (let primary = 0; primary < count; primary++)
      if (
        (chosen[primary] as number) < 0 &&
        (next < 0 || (options[primary] as number) < (options[next] as number))
      )
        next = primary;
    for (const x of open) {
      if (primaryOf[x] !== next || over(x) > toSpare) continue;
      chosen[next] = x;
      if (orderAllows()) {
        const sum = welds + (weldsOf[x] as number);
        if (left > 1) {
          const left0 = toSpare - over(x);
          const rest = open.filter(
            (y) => primaryOf[y] !== next && slotOf[y] !== slotOf[x] && over(y) <= left0 && clear(x, y),
          );
          settle(rest, left - 1, sum);
        } else if (sum < bestWelds) {
          if (many === undefined) {
            bestWelds = sum;
            found.length = 0;
          } else goBack = true;
          found.push([...chosen]);
        }
      }
      chosen[next] = -1;
      if (left === count) goBack = false;
      if (goBack || nodes > mostNodes || found.length >= (many ?? Infinity)) return;
    }
  };
  settle(Int32Array.from(all.keys()), count, 0);
  return { sets: found.map((set) => set.map((x) => all[x] as Candidate)), nodes };
}

/** Whether two routes, by their places in a list, clear each other: worked out when asked, and once. */
function clearPairs(
  problem: RouteProblem,
  all: readonly Candidate[],
  spare: number,
): (x: number, y: number) => boolean {
  const total = all.length;
  /** 0 not yet asked, 1 clear, 2 not. */
  const known = new Uint8Array(total * total);
  const march = { floor: COARSE, stop: spare, cap: spare };
  return (x, y) => {
    const at = x < y ? x * total + y : y * total + x;
    if (known[at] === 0) {
      const [a, b] = [all[x] as Candidate, all[y] as Candidate];
      known[at] = leastSpareBetween(a.line, b.line, problem.apart, march) >= spare ? 1 : 2;
    }
    return known[at] === 1;
  };
}

/** Fewest welds of the primaries not yet chosen, each with a slot of its own; as `leastAssignment`, in place. */
function restBound(count: number): (fewestBySlot: Float64Array, chosen: Int32Array) => number {
  const sums = new Float64Array(1 << count);
  return (fewestBySlot, chosen) => {
    sums.fill(Infinity);
    sums[0] = 0;
    for (let primary = 0; primary < count; primary++) {
      if ((chosen[primary] as number) >= 0) continue;
      // Down from the fullest set of slots, so that no primary is counted twice.
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
    }
    let least = Infinity;
    for (const sum of sums) if (sum < least) least = sum;
    return least;
  };
}
