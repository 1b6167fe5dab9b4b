import { leastSpareBetween } from '../../geom/line-to-line.js';
import type { Candidate } from './candidate.js';
import { PROVING } from './measure.js';
import type { RouteProblem } from './problem.js';

/** One primary as it may be kept: rounded, or exact as it was. */
export interface Choosable {
  readonly route: Candidate;
  /** What speaks against it alone: 0 is best. */
  readonly cost: number;
  /** Proven spare (mm) to obstacles and itself. */
  readonly spare: number;
}

/** What the set as a whole answers for. */
interface SetRules {
  /** The lengths of all lie within this (mm). */
  readonly spread: number;
  /** Spare (mm) beyond this is not told apart; what is lost below it costs. */
  readonly enough: number;
  /** What a mm of least spare lost costs. */
  readonly perSpare: number;
}

/** Ends, with the best so far, after so many nodes. */
const NODES = 3000;

/**
 * One of each primary's choices so that the lengths lie within the spread, all pairs are proved clear, and the
 * sum of costs, with that of the set's least spare, is least: branch and bound, the primary with the fewest
 * choices left settled next.
 * @param offered by primary, cheapest first
 * @returns by primary, or undefined where no set was found
 */
export function chooseRounded(
  problem: RouteProblem,
  offered: readonly (readonly Choosable[])[],
  { spread, enough, perSpare }: SetRules,
): readonly Choosable[] | undefined {
  const between = pairSpares(problem, enough);
  let best: { readonly set: readonly Choosable[]; readonly cost: number } | undefined;
  let nodes = 0;

  /** `open`: what is left to primaries not yet settled, cheapest first; those settled hold their one choice. */
  const settle = (
    open: readonly (readonly Choosable[])[],
    settled: readonly number[],
    least: number,
    low: number,
    high: number,
  ): void => {
    const bound = open.reduce((sum, [cheapest]) => sum + (cheapest?.cost ?? Infinity), 0);
    const cost = bound + perSpare * (enough - least);
    if (!(cost < (best?.cost ?? Infinity))) return;
    if (settled.length === open.length) {
      best = { set: open.flat(), cost };
      return;
    }
    let next = -1;
    open.forEach((list, primary) => {
      const fewer = list.length < (open[next]?.length ?? Infinity);
      if (fewer && !settled.includes(primary)) next = primary;
    });
    for (const one of open[next] as readonly Choosable[]) {
      if (nodes++ > NODES) return;
      const { length } = one.route;
      const [from, to] = [Math.min(low, length), Math.max(high, length)];
      const left = open.map((list, primary) => {
        if (primary === next) return [one];
        if (settled.includes(primary)) return list;
        return list.filter(
          ({ route }) =>
            Math.max(to, route.length) - Math.min(from, route.length) <= spread &&
            between(one.route, route) >= 0,
        );
      });
      if (left.some((list) => list.length === 0)) continue;
      const spares = settled.map((primary) => between((open[primary]?.[0] as Choosable).route, one.route));
      settle(left, [...settled, next], Math.min(least, one.spare, ...spares), from, to);
    }
  };
  settle(offered, [], enough, Infinity, -Infinity);
  return best?.set;
}

/** The proven spare (mm) between two, as far as `enough`: worked out when asked, and once. */
function pairSpares(problem: RouteProblem, enough: number): (a: Candidate, b: Candidate) => number {
  const known = new Map<Candidate, Map<Candidate, number>>();
  const march = { floor: PROVING, stop: 0, cap: enough + PROVING };
  const isKept = ({ start }: Candidate): boolean => problem.kept[start] !== undefined;
  return (a, b) => {
    const [first, second] = a.start < b.start ? [a, b] : [b, a];
    const row = known.get(first) ?? new Map<Candidate, number>();
    known.set(first, row);
    const before = row.get(second);
    if (before !== undefined) return before;
    // What is kept is as the user gave it.
    const spare =
      isKept(a) && isKept(b)
        ? enough
        : leastSpareBetween(first.line, second.line, problem.apart, march) - PROVING / 2;
    row.set(second, spare);
    return spare;
  };
}
