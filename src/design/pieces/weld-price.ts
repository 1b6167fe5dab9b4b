import { cheapestStock, usualEffort, type Effort } from './cheapest-stock.js';
import { fewestWeldsOf } from './fewest-welds.js';
import type { Solve } from './linear-program.js';
import type { PrimaryToCut } from './primary.js';
import type { CuttingRules } from './rules.js';
import { waysWithin } from './ways.js';

/** What the stock costs where so many welds are allowed. */
export interface StockByWelds {
  readonly welds: number;
  readonly cost: number;
  readonly proved: boolean;
}

/**
 * What each further weld would save in stock: the least cost with the fewest welds, with one more, and so on.
 * The difference between two is the price of a weld at which they break even; a shop whose weld costs less
 * may take the plan with more.
 * @param more how many welds beyond the fewest
 * @returns nothing where some primary cannot be made
 */
export function stockByWelds(
  primaries: readonly PrimaryToCut[],
  rules: CuttingRules,
  solve: Solve,
  more = 2,
  effort: Effort = usualEffort,
): readonly StockByWelds[] {
  const least = primaries.flatMap((primary) => fewestWeldsOf(primary, rules) ?? []);
  if (least.length < primaries.length) return [];
  const fewest = least.reduce((sum, { welds }) => sum + welds, 0);
  return Array.from({ length: more + 1 }, (_, extra) => {
    const ways = least.map((one) => waysWithin(one.ways, one.welds + extra));
    const { plan, proved } = cheapestStock(ways, rules, solve, fewest + extra, effort);
    return { welds: fewest + extra, cost: plan?.cost ?? Infinity, proved };
  });
}

/** A plan with more welds and cheaper stock, and the price of a weld at which it costs the same as the fewest. */
export interface BreakEven {
  readonly welds: number;
  readonly more: number;
  readonly saves: number;
  /** A shop whose weld costs less than this is better off with the further welds. */
  readonly price: number;
}

/** Less than this, in the money of the rack, is no saving. */
const NOTHING = 0.005;

/**
 * The further welds that save most each.
 * @returns undefined where none of them saves anything
 */
export function breakEvenOf([fewest, ...others]: readonly StockByWelds[]): BreakEven | undefined {
  if (fewest === undefined) return undefined;
  let best: BreakEven | undefined;
  for (const { welds, cost } of others) {
    const [more, saves] = [welds - fewest.welds, fewest.cost - cost];
    if (!(saves > NOTHING) || !Number.isFinite(saves)) continue;
    if (best === undefined || saves / more > best.price + NOTHING)
      best = { welds, more, saves, price: saves / more };
  }
  return best;
}
