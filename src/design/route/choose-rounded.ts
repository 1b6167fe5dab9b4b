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
export interface SetRules {
  /** The lengths of all lie within this (mm). */
  readonly spread: number;
  /** Spare (mm) beyond this is not told apart; what is lost below it costs. */
  readonly enough: number;
  /** What a mm of least spare lost costs. */
  readonly perSpare: number;
}

/** Work allowed, in sets looked at. */
const NODES = 4000;

/**
 * One of each primary's choices so that the lengths lie within the spread, all pairs are proved clear, and the sum
 * of costs, with that of the least spare of the set, is least: branch and bound, the shortest list first.
 * @param offered by primary, cheapest first
 * @returns by primary, or undefined where no set was found
 */
export function chooseRounded(
  problem: RouteProblem,
  offered: readonly (readonly Choosable[])[],
  { spread, enough, perSpare }: SetRules,
): readonly Choosable[] | undefined {
  const order = [...offered.keys()].sort((a, b) => listOf(a).length - listOf(b).length);
  const cheapest = order.map((primary) => listOf(primary)[0]?.cost ?? Infinity);
  const rest = cheapest.map((_, i) => cheapest.slice(i).reduce((sum, each) => sum + each, 0));
  const known = new Map<Candidate, Map<Candidate, number>>();
  let best: { readonly set: readonly Choosable[]; readonly cost: number } | undefined;
  let nodes = 0;

  function listOf(primary: number): readonly Choosable[] {
    return offered[primary] ?? [];
  }

  /** Proven spare between two, worked out when asked, and once. */
  const between = (a: Candidate, b: Candidate): number => {
    const [first, second] = a.start < b.start ? [a, b] : [b, a];
    const row = known.get(first) ?? new Map<Candidate, number>();
    known.set(first, row);
    let spare = row.get(second);
    if (spare === undefined) {
      const march = { floor: PROVING, stop: 0, cap: enough + PROVING };
      const kept = problem.kept[first.start] !== undefined && problem.kept[second.start] !== undefined;
      spare = kept ? enough : leastSpareBetween(first.line, second.line, problem.apart, march) - PROVING / 2;
      row.set(second, spare);
    }
    return spare;
  };

  const settle = (i: number, set: readonly Choosable[], cost: number, least: number): void => {
    const primary = order[i];
    const lost = perSpare * Math.max(0, enough - least);
    if (primary === undefined) {
      if (cost + lost < (best?.cost ?? Infinity)) best = { set, cost: cost + lost };
      return;
    }
    for (const next of listOf(primary)) {
      if (nodes++ > NODES) return;
      if (cost + next.cost + lost + (rest[i + 1] ?? 0) >= (best?.cost ?? Infinity)) return;
      const lengths = [...set, next].map(({ route }) => route.length);
      if (Math.max(...lengths) - Math.min(...lengths) > spread) continue;
      let spare = Math.min(least, next.spare);
      for (const { route } of set) if (spare >= 0) spare = Math.min(spare, between(route, next.route));
      if (spare >= 0) settle(i + 1, [...set, next], cost + next.cost, spare);
    }
  };
  settle(0, [], 0, enough);
  return best && offered.map((_, primary) => best?.set[order.indexOf(primary)] as Choosable);
}
