import { degrees, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { cheapestStock, usualEffort, type CheapestStock, type Effort } from './cheapest-stock.js';
import { fewestWeldsOf } from './fewest-welds.js';
import type { Solve } from './linear-program.js';
import type { Need } from './needs.js';
import type { PrimaryToCut } from './primary.js';
import { quickStock } from './quick-stock.js';
import { withoutLimited, type CuttingRules } from './rules.js';
import type { StockPlan } from './stock-plan.js';
import { waysOf, waysWithin, piecesIn, type Ways } from './ways.js';
import { rowFaults, whyNot } from './why-not.js';

/** The stock chosen for a header: fewest welds first, then least cost. */
export interface ChosenStock {
  readonly primaries: readonly Ways[];
  readonly plan: StockPlan;
  readonly welds: number;
  /** No plan of so few welds costs less; undefined where no solver was at hand. */
  readonly bound: number | undefined;
  readonly proved: boolean;
}

/** How many welds more than the fewest are tried where limited stock gives out. */
const MOST_MORE = 4;

/**
 * Chooses how every primary is cut and from which stock. The fewest welds of a primary do not depend on the
 * others, so their sum is the fewest of the header; only limited stock can stand in the way, and then one
 * weld more is tried, and so on.
 */
export function chooseStock(
  primaries: readonly PrimaryToCut[],
  rules: CuttingRules,
  solve: Solve | undefined,
  effort: Effort = usualEffort,
): { readonly chosen: ChosenStock | undefined; readonly problems: readonly Problem[] } {
  const faults = primaries.flatMap((primary) => rowFaults(primary, rules));
  if (faults.length > 0) return { chosen: undefined, problems: faults };
  const found = primaries.map((primary) => ({ primary, ...waysOf(primary, rules) }));
  const stuck = found.flatMap(({ primary, stuckAt }) =>
    stuckAt === undefined ? [] : [whyNot(primary, rules, stuckAt)],
  );
  if (stuck.length > 0) return { chosen: undefined, problems: stuck };
  const least = primaries.map((primary) => fewestWeldsOf(primary, rules)?.welds ?? 0);
  const within = (more: number): Ways[] =>
    found.map(({ ways }, i) => waysWithin(ways, (least[i] ?? 0) + more));
  const sum = least.reduce((total, one) => total + one, 0);

  const limited = [...rules.bends, ...rules.straights].some(({ quantity }) => quantity < Infinity);
  const sure = limited ? primaries.map((primary) => fewestWeldsOf(primary, withoutLimited(rules))) : [];
  const never = sure.every((one, i) => one?.welds === least[i]);
  if (never || solve === undefined) {
    const ways = within(0);
    const cheapest = cheapestStock(ways, rules, solve, undefined, effort);
    const lasting = sure.flatMap((one) => (one ? [waysWithin(one.ways, one.welds)] : []));
    const tryLasting = cheapest.plan === undefined && lasting.length === primaries.length;
    const plan = tryLasting ? quickStock(lasting, withoutLimited(rules)).plan : cheapest.plan;
    // A plan goes with its own ways: without the limited stock a primary may have more bends to cut.
    return told({ ...cheapest, plan }, plan && tryLasting ? lasting : ways, rules, solve !== undefined);
  }
  let last: CheapestStock | undefined;
  for (let more = 0; more <= MOST_MORE; more++) {
    const ways = within(more);
    last = cheapestStock(ways, rules, solve, sum + more, effort);
    if (last.plan) return told(last, ways, rules, true);
  }
  return told(last, within(0), rules, true);
}

function told(
  cheapest: CheapestStock | undefined,
  primaries: readonly Ways[],
  rules: CuttingRules,
  solved: boolean,
): { readonly chosen: ChosenStock | undefined; readonly problems: readonly Problem[] } {
  if (cheapest?.plan === undefined)
    return { chosen: undefined, problems: [usedUp(cheapest?.lacking ?? [], primaries, rules)] };
  const { plan, bound, proved } = cheapest;
  const welds = plan.ways.reduce((total, way) => total + piecesIn(way), 0);
  const chosen: ChosenStock = { primaries, plan, welds, bound: solved ? bound : undefined, proved };
  return { chosen, problems: solved && !proved ? [notProved(plan.cost, bound)] : [] };
}

/** Names what to buy: the pieces that the program found no stock for, or else those of the quick plan. */
function usedUp(lacking: readonly Need[], primaries: readonly Ways[], rules: CuttingRules): Problem {
  const pieces = lacking.length > 0 ? lacking : quickStock(primaries, rules).lacking;
  const names = pieces.map((piece) => {
    if (piece.kind === 'insert') return `a straight of ${tidy(piece.length, 1)} mm`;
    const legs = 'legs' in piece ? piece.legs : [piece.legUp, piece.legDown];
    const leg = Math.max(...legs);
    return `a bend of CLR ${tidy(piece.clr, 2)} for ${tidy(degrees(piece.angle), 1)} deg${leg > 0 ? ` with a leg of ${tidy(leg, 1)} mm` : ''}`;
  });
  const what = names.length > 0 ? names.join(', ') : `the last of ${primaries.length} primaries`;
  const first = pieces[0];
  const { primary, course } = primaries[first?.primary ?? 0] ?? {};
  const rows =
    first && (first.kind === 'insert' ? course?.straights[first.straight] : course?.bends[first.bend]);
  return {
    code: 'pieces/stock-used-up',
    severity: 'error',
    what: `the rack gives out: there is nothing left for ${what}`,
    why: 'the header cannot be finished from what is there',
    fix: `buy ${what}, and raise its quantity on the rack (by ${Math.max(1, pieces.length)} at the most)`,
    place: { path: `${primary?.path ?? 'rack'}${rows === undefined ? '' : `.${rows.row}`}` },
  };
}

const notProved = (cost: number, bound: number): Problem => ({
  code: 'pieces/not-proved',
  severity: 'note',
  what: `the stock costs ${tidy(cost, 2)}; a plan of as few welds could cost ${tidy(bound, 2)} at the least`,
  why: 'the search ended before it was proved that nothing is cheaper',
  fix: `use it as it is: at the most ${tidy(cost - bound, 2)} would be saved`,
});
