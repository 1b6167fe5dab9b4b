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
