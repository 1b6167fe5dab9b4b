import type { ProgramSolution, Solve, SolveLimits } from './linear-program.js';
import { needsOf, type Need, type NeedTable } from './needs.js';
import { quickStock } from './quick-stock.js';
import type { CuttingRules } from './rules.js';
import { nameOfCut, piecesOf, stockCuts, type StockCut, type Worth } from './stock-cuts.js';
import { trimmedFloor, type StickFloor } from './stick-floor.js';
import { stockProgram, type StockProgram } from './stock-program.js';
import { PENNY } from './sticks.js';
import type { StockPlan } from './stock-plan.js';
import { planFromSolution, type SolvedPlan } from './solved-plan.js';
import type { Step, Ways } from './ways.js';

/** How hard to look. Counts, so that the same job gives the same plan; the seconds are a safety net. */
export interface Effort {
  /** How many ways to cut the stock may stand in one program. */
  readonly cuts: number;
  /** How many may do so without being chosen by worth first. */
  readonly cutsAtOnce: number;
  readonly nodes: number;
  readonly seconds: number;
}

export const usualEffort: Effort = { cuts: 30_000, cutsAtOnce: 1200, nodes: 20_000, seconds: 10 };

/** A plan with what is known about how good it is. */
export interface CheapestStock {
  readonly plan: StockPlan | undefined;
  /** No plan of as few welds costs less than this. */
  readonly bound: number;
  /** Whether the plan is proved to be the cheapest. */
  readonly proved: boolean;
  /** Pieces for which the limited stock gives out. */
  readonly lacking: readonly Need[];
}

interface Search {
  readonly primaries: readonly Ways[];
  readonly rules: CuttingRules;
  readonly needs: NeedTable;
  readonly solve: Solve;
  readonly effort: Effort;
  readonly mostPieces: number | undefined;
}

/**
 * The cheapest stock among the ways given: quickly a whole plan, then a linear program over the ways to cut
 * stock bends. Small jobs take all cuts at once. Larger ones take cuts in as their worth shows in the relaxed
 * program (column generation); then all cuts, and only those, that could still be part of a cheaper plan:
 * solving that proves the plan, or tells the gap.
 * @see full enumeration on small jobs, tests/design/pieces/cheapest-stock.test.ts
 */
export function cheapestStock(
  primaries: readonly Ways[],
  rules: CuttingRules,
  solve: Solve | undefined,
  mostPieces?: number,
  effort: Effort = usualEffort,
): CheapestStock {
  const quick = mostPieces === undefined ? quickStock(primaries, rules).plan : undefined;
  if (solve === undefined) return { plan: quick, bound: 0, proved: false, lacking: [] };
  const needs = needsOf(primaries);
  const search: Search = { primaries, rules, needs, solve, effort, mostPieces };
  const steps = new Set(primaries.flatMap((one) => one.steps.flat()));
  const inserts = [...steps].some(({ share }) => share.inserts.length > 0);
  const all = stockCuts({ needs: needs.list, rules, inserts, count: effort.cutsAtOnce });
  if (all.whole) {
    const solved = solveWhole(search, all.cuts, steps, quick);
    const { plan, proved } = solved;
    if (proved) return { ...solved, bound: plan?.cost ?? Infinity };
    // Cut short: fractions of stock are sure to cost no more than any plan.
    const fractions = relaxedProgram(search, all.cuts, steps)?.solution.cost ?? 0;
    return { ...solved, bound: Math.max(0, solved.bound, Math.min(fractions, plan?.cost ?? 0)) };
  }
  return byWorth(search, steps, inserts, quick);
}

const limitsOf = ({ effort }: Search, share = 1): SolveLimits => ({
  nodes: Math.ceil(effort.nodes * share),
  seconds: effort.seconds,
});

/**
 * Solves with whole numbers. Sticks are in the program by volume only; where the inserts chosen do not pack
 * into so few, the true cost of sawing them is added to the program as a floor, and it is solved again.
 */
function solveWhole(
  search: Search,
  cuts: readonly StockCut[],
  steps: ReadonlySet<Step>,
  known: StockPlan | undefined,
  share = 1,
): CheapestStock {
  const floors: StickFloor[] = [];
  const found = leastCost(search, cuts, steps, known, share, floors);
  return found.proved ? { ...found, plan: outOfArcs(search, cuts, steps, floors, found.plan) } : found;
}

const arcWeldsIn = (plan: StockPlan): number =>
  plan.ways.flat().reduce((sum, { arcWelds }) => sum + arcWelds, 0);

/** How many branches that takes at the most. */
const BRIEFLY = 100;

/** At the same cost, a plan with fewer welds at and in arcs, where tubes are oval; looked for briefly. */
function outOfArcs(
  search: Search,
  cuts: readonly StockCut[],
  steps: ReadonlySet<Step>,
  floors: readonly StickFloor[],
  plan: StockPlan | undefined,
): StockPlan | undefined {
  if (plan === undefined || arcWeldsIn(plan) === 0) return plan;
  const made = stockProgram({ ...search, cuts, steps, floors, mostCost: plan.cost + PENNY });
  const solution = search.solve(made.program, { nodes: BRIEFLY, seconds: search.effort.seconds });
  if (solution.values.length === 0) return plan;
  const other = planFromSolution(search.primaries, search.rules, search.needs, cuts, made, solution).plan;
  const better = other && other.cost <= plan.cost + PENNY && arcWeldsIn(other) < arcWeldsIn(plan);
  return better && lackingIn(made, solution, search.needs).length === 0 ? other : plan;
}

function leastCost(
  search: Search,
  cuts: readonly StockCut[],
  steps: ReadonlySet<Step>,
  known: StockPlan | undefined,
  share: number,
  floors: StickFloor[],
): CheapestStock {
  let best = known;
  let bound = 0;
  let lacking: readonly Need[] = [];
  for (let round = 0; round < 40; round++) {
    const made = stockProgram({ ...search, cuts, steps, floors });
    const solution = search.solve(made.program, limitsOf(search, share));
    if (solution.status === 'none')
      return { plan: best, bound: Infinity, proved: best !== undefined, lacking };
    if (solution.values.length === 0) return { plan: best, bound, proved: false, lacking };
    const solved = planFromSolution(search.primaries, search.rules, search.needs, cuts, made, solution);
    lacking = lackingIn(made, solution, search.needs);
    if (lacking.length > 0) return { plan: best, bound, proved: false, lacking };
    if (solution.status === 'best') bound = solution.cost;
    if (solved.plan && (best === undefined || solved.plan.cost < best.cost - PENNY)) best = solved.plan;
    const done = best !== undefined && best.cost <= bound + PENNY;
    if (done || solution.status !== 'best')
      return { plan: best, bound: Math.min(bound, best?.cost ?? bound), proved: done, lacking };
    if (!addFloor(floors, solved, search.rules)) return { plan: best, bound, proved: false, lacking };
  }
  return { plan: best, bound, proved: false, lacking };
}

/** Adds what the chosen inserts truly cost in sticks; false where that is not known exactly. */
function addFloor(floors: StickFloor[], solved: SolvedPlan, rules: CuttingRules): boolean {
  if (solved.stickFloor === undefined || solved.stickInserts.length === 0) return false;
  floors.push(trimmedFloor({ inserts: solved.stickInserts, cost: solved.stickFloor }, rules));
  return true;
}

const lackingIn = (made: StockProgram, { values }: ProgramSolution, needs: NeedTable): readonly Need[] =>
  made.lackingFrom === undefined
    ? []
    : needs.list.filter((_, i) => (values[(made.lackingFrom ?? 0) + i] ?? 0) > 0.5);

/** Column generation: see `cheapestStock`. */
function byWorth(
  search: Search,
  steps: ReadonlySet<Step>,
  inserts: boolean,
  quick: StockPlan | undefined,
): CheapestStock {
  const { needs, rules, effort } = search;
  const common = { needs: needs.list, rules, inserts, count: effort.cuts };
  const seeds = stockCuts({ ...common, middles: 1 });
  const singles = (list: readonly StockCut[]): readonly StockCut[] =>
    list.length <= effort.cutsAtOnce ? list : list.filter((cut) => piecesOf(cut).length < 2);
  let cuts: readonly StockCut[] = singles(seeds.cuts);
  const have = new Set(cuts.map(nameOfCut));
  let relaxed = relaxedProgram(search, cuts, steps);
  if (relaxed === undefined) return { plan: quick, bound: 0, proved: false, lacking: [] };
  let whole = true;
  for (let round = 0; round < 60; round++) {
    const worth = worthOf(relaxed);
    const wanted = stockCuts({ ...common, worth, most: -PENNY });
    whole = wanted.whole;
    const fresh = wanted.cuts
      .filter((cut) => !have.has(nameOfCut(cut)))
      .map((cut) => ({ cut, left: leftOf(cut, worth) }))
      .sort((a, b) => a.left - b.left)
      .slice(0, MOST_AT_ONCE);
    if (fresh.length === 0) break;
    for (const { cut } of fresh) have.add(nameOfCut(cut));
    cuts = [...cuts, ...fresh.map(({ cut }) => cut)];
    relaxed = relaxedProgram(search, cuts, steps);
    if (relaxed === undefined) return { plan: quick, bound: 0, proved: false, lacking: [] };
  }
  const bound = whole ? relaxed.solution.cost : 0;
  const worth = worthOf(relaxed);
  const few = [...cuts].sort((a, b) => leftOf(a, worth) - leftOf(b, worth)).slice(0, effort.cutsAtOnce);
  const first = solveWhole(search, withSingles(few, cuts), steps, quick, 0.5);
  const best = first.plan;
  if (best === undefined) return { ...first, bound };
  if (best.cost <= bound + PENNY) return { plan: best, bound: best.cost, proved: true, lacking: [] };
  // Nothing that costs more than the gap beyond its worth can be part of a cheaper plan.
  const gap = best.cost - bound;
  const near = stockCuts({ ...common, worth, most: gap });
  if (!near.whole || !whole) return { plan: best, bound, proved: false, lacking: [] };
  const nearSteps = new Set([...steps].filter((step) => stepCost(step, relaxed) <= gap + PENNY));
  const last = solveWhole(search, near.cuts, nearSteps, best);
  if (last.proved) return { ...last, bound: last.plan?.cost ?? bound };
  return { ...last, bound: Math.max(bound, Math.min(last.bound, last.plan?.cost ?? bound)) };
}

/** How many cuts enter the relaxed program in one round. */
const MOST_AT_ONCE = 1500;

const withSingles = (few: readonly StockCut[], all: readonly StockCut[]): readonly StockCut[] => [
  ...new Set([...few, ...all.filter((cut) => piecesOf(cut).length === 1)]),
];

interface Relaxed {
  readonly made: StockProgram;
  readonly solution: ProgramSolution;
}

function relaxedProgram(
  search: Search,
  cuts: readonly StockCut[],
  steps: ReadonlySet<Step>,
): Relaxed | undefined {
  const made = stockProgram({ ...search, cuts, steps, floors: [] });
  const solution = search.solve(made.program, { relaxed: true, seconds: search.effort.seconds });
  return solution.status === 'best' ? { made, solution } : undefined;
}

/** What the relaxed program would pay for one more of each thing. */
function worthOf({ made, solution }: Relaxed): Worth {
  const price = (row: number | undefined): number => (row === undefined ? 0 : (solution.prices[row] ?? 0));
  return {
    need: (index) => price(made.rowOfNeed.get(index)),
    spareLeg: (length) => Math.max(0, -price(made.rowOfLeg.get(length))),
    stock: (path) => price(made.rowOfStock.get(path)),
  };
}

/** What a cut costs beyond its worth. */
const leftOf = (cut: StockCut, worth: Worth): number =>
  cut.stock.price -
  worth.stock(cut.stock.path) -
  piecesOf(cut).reduce((sum, { index }) => sum + worth.need(index), 0) -
  cut.spare.reduce((sum, length) => sum + (length > 0 ? worth.spareLeg(length) : 0), 0);

/** What taking a step costs beyond its worth. */
function stepCost(step: Step, { made, solution }: Relaxed): number {
  const at = made.stepAt.get(step);
  if (at === undefined) return 0;
  return stepCosts(made, solution).get(at) ?? 0;
}

const costsOf = new WeakMap<StockProgram, ReadonlyMap<number, number>>();

function stepCosts(made: StockProgram, { prices }: ProgramSolution): ReadonlyMap<number, number> {
  const known = costsOf.get(made);
  if (known) return known;
  const costs = new Map<number, number>();
  const steps = new Set(made.stepAt.values());
  made.program.rows.forEach(({ terms }, row) => {
    for (const [unknown, coefficient] of terms)
      if (steps.has(unknown))
        costs.set(unknown, (costs.get(unknown) ?? 0) - coefficient * (prices[row] ?? 0));
  });
  costsOf.set(made, costs);
  return costs;
}
