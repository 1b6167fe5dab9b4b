import { radians } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import type { Rack, RackBend, RackStraight } from '../../job/rack.js';
import type { CutList, LeftoverRow } from './cut-list.js';
import { cuttingRules, type CuttingChoices } from './rules.js';

/** What the rack holds once a cut list is sawn. */
export interface RackAfter {
  /** Limited items fewer by what was used; what is left of used items stands behind them, one of each. */
  readonly rack: Rack;
  /** The least straight kept, mm: the shortest insert with both its raw ends still on it. */
  readonly leastStraight: number;
  /** Which leftover each of those is, by its path on the rack. */
  readonly kept: ReadonlyMap<string, LeftoverRow>;
  /** What is left over but too small to keep. */
  readonly dropped: readonly LeftoverRow[];
}

/**
 * Where stock comes from, for people: its place in the rack file, or of which stock it is what is left.
 * @param path such as `bends.2`, or that of a leftover
 */
export const stockFrom = (path: string): string => path.replace(/, \d+$/, '');

/** A rack file takes no bend of less (its own limit). */
const LEAST_ANGLE = radians(1);

/**
 * The rack after a cut list: what can be bought at any time stays, of the others what was used is gone (an
 * offcut that is used up is gone from the list), and leftovers that a piece can still be sawn from come to it,
 * free of charge as they are paid for.
 * @see the path of a leftover is `left of B1`, of a second one of the same item `left of B1, 2`
 */
export function rackAfter(rack: Rack, list: CutList, choices: CuttingChoices = {}): RackAfter {
  const rules = cuttingRules(rack, choices);
  const leastStraight = rules.leastInsert + 2 * rack.saw.rawTrim;
  const used = (path: string): number => list.stock.filter((item) => item.rack === path).length;
  const fewer = <Item extends RackBend | RackStraight>(items: readonly Item[]): Item[] =>
    items
      .map((item) => ({ ...item, quantity: item.quantity - used(item.path) }))
      .filter(({ path, quantity }) => quantity > 0 || !path.startsWith('offcuts.'));
  const bends: RackBend[] = fewer(rack.bends);
  const straights: RackStraight[] = fewer(rack.straights);
  const dropped: LeftoverRow[] = [];
  const kept = new Map<string, LeftoverRow>();
  const counts = new Map<string, number>();
  const pathOf = (stock: string): string => {
    const count = (counts.get(stock) ?? 0) + 1;
    counts.set(stock, count);
    return `left of ${stock}${count > 1 ? `, ${count}` : ''}`;
  };
  for (const left of list.leftovers) {
    const common = (): { path: string; price: number; quantity: number } => {
      const path = pathOf(left.stock);
      kept.set(path, left);
      return { path, price: 0, quantity: 1 };
    };
    if (left.kind === 'straight') {
      if (left.length < leastStraight - tolerance.samePoint) dropped.push(left);
      else straights.push({ ...common(), length: left.length });
      continue;
    }
    const { clr, angle, legs } = left;
    const bend: RackBend = { path: '', clr, angle, legs, price: 0, quantity: 1 };
    const [seen] = cuttingRules({ ...rack, bends: [bend], straights: [] }, choices).bends;
    const inside = (seen?.room ?? 0) * (clr - rules.od / 2) + Math.max(...(seen?.usable ?? [0]));
    if (angle >= LEAST_ANGLE && (seen?.room ?? 0) > 0 && inside >= rules.leastInsideArc)
      bends.push({ ...bend, ...common() });
    else dropped.push(left);
  }
  return { rack: { ...rack, bends, straights }, leastStraight, kept, dropped };
}
