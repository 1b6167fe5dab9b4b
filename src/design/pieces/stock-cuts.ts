import { tolerance } from '../../base/tolerance.js';
import type { Need } from './needs.js';
import { SAME_CLR, WHOLE_WITHIN, type CuttingRules, type StockBend } from './rules.js';

/** One way to cut a stock bend into pieces: end A with its leg, arcs from its middle, end B with its leg. */
export interface StockCut {
  readonly stock: StockBend;
  readonly endA: Need | undefined;
  readonly middles: readonly Need[];
  readonly endB: Need | undefined;
  /** A piece that takes the whole stock bend. */
  readonly whole: Need | undefined;
  /** Inserts that its unused legs could give, mm: 0 where a leg is used or too short. */
  readonly spare: readonly [a: number, b: number];
}

/** What things are worth while cuts are searched: a cut is wanted if it costs little more than its worth. */
export interface Worth {
  readonly need: (index: number) => number;
  readonly spareLeg: (length: number) => number;
  /** Of one of a limited stock (not positive: using it up costs). */
  readonly stock: (path: string) => number;
}

export const piecesOf = (cut: StockCut): readonly Need[] =>
  [cut.endA, ...cut.middles, cut.endB, cut.whole].filter((need) => need !== undefined);

/** Told apart from other cuts of one stock. */
export const nameOfCut = (cut: StockCut): string =>
  `${cut.stock.path} ${piecesOf(cut)
    .map(({ index }) => index)
    .sort((a, b) => a - b)
    .join(' ')} ${cut.spare.join(' ')}`;

export interface CutSearch {
  /** Pieces that are asked for by some way. */
  readonly needs: readonly Need[];
  readonly rules: CuttingRules;
  /** Whether inserts are asked for at all, so that unused legs matter. */
  readonly inserts: boolean;
  readonly worth?: Worth;
  /** Only cuts whose price less worth is at most this. */
  readonly most?: number;
  /** At most so many pieces between the two end pieces. */
  readonly middles?: number;
  /** How many may be listed or looked at before giving up. */
  readonly count: number;
}

const free: Worth = { need: () => 0, spareLeg: () => 0, stock: () => 0 };

/**
 * Every way to cut every stock bend, or every one that is worth its price: exact, by branch and bound on what
 * the rest of the arc could still be worth.
 * @returns the cuts, and whether the list is whole
 */
export function stockCuts(search: CutSearch): {
  readonly cuts: readonly StockCut[];
  readonly whole: boolean;
} {
  const found = new Map<string, StockCut>();
  const budget = { left: search.count * 20 };
  for (const stock of search.rules.bends) {
    cutsOf(stock, search, budget, (cut) => {
      // Of two stock bends that give the same pieces the cheaper is wanted; limited ones are counted apart.
      const limited = stock.quantity < Infinity ? ` ${stock.path}` : '';
      const key = nameOfCut(cut).slice(stock.path.length) + limited;
      const known = found.get(key);
      if (!known || known.stock.price > stock.price) found.set(key, cut);
    });
    if (budget.left < 0 || found.size > search.count) return { cuts: [...found.values()], whole: false };
  }
  return { cuts: [...found.values()], whole: true };
}

/** Of one end of a stock bend: the pieces that could be cut there with the leg. */
const endsFor = (needs: readonly Need[], leg: number): Need[] =>
  leg > 0 ? needs.filter(({ kind, legs }) => kind === 'end' && legs[0] === leg) : [];

/** Two pieces that are never made both: the same stretch of the same bend. */
const clash = (a: Need | undefined, b: Need | undefined): boolean =>
  a !== undefined && b !== undefined && a.arc === b.arc;

function cutsOf(
  stock: StockBend,
  { needs, rules, inserts, worth = free, most = Infinity, middles: mostMiddles = Infinity }: CutSearch,
  budget: { left: number },
  give: (cut: StockCut) => void,
): void {
  const [a, b] = stock.usable;
  const even = a === b && stock.spareLeg[0] === stock.spareLeg[1];
  const slack = tolerance.sameDirection;
  const mine = needs.filter(({ clr }) => Math.abs(clr - stock.clr) <= SAME_CLR);
  const inArc = mine.filter(({ kind, angle }) => kind !== 'whole' && angle <= stock.room + slack);
  const spareOf = (end: 0 | 1): number => {
    const length = stock.spareLeg[end];
    return inserts && length >= rules.leastInsert ? length : 0;
  };
  const spares = [spareOf(0), spareOf(1)] as const;
  const legWorth = spares.map((length) => (length > 0 ? Math.max(0, worth.spareLeg(length)) : 0));
  const base = stock.price - worth.stock(stock.path);

  for (const whole of mine) {
    if (whole.kind !== 'whole' || Math.abs(whole.angle - stock.angle) > WHOLE_WITHIN) continue;
    const [up, down] = whole.legs;
    if (!((up === a && down === b) || (up === b && down === a))) continue;
    if (base - worth.need(whole.index) <= most)
      give({ stock, endA: undefined, middles: [], endB: undefined, whole, spare: [0, 0] });
  }

  const { room } = stock;
  const worthPerAngle = (need: Need): number => worth.need(need.index) / (need.angle + stock.gap);
  const middles = inArc
    .filter(({ kind }) => kind === 'middle')
    .sort((x, y) => worthPerAngle(y) - worthPerAngle(x));
  const density = middles.map((need) => Math.max(0, worthPerAngle(need)));

  const fill = (
    endA: Need | undefined,
    endB: Need | undefined,
    start: number,
    left: number,
    cost: number,
    chosen: readonly Need[],
  ): void => {
    if (--budget.left < 0) return;
    if ((endA || endB || chosen.length > 0) && cost <= most)
      give({
        stock,
        endA,
        middles: chosen,
        endB,
        whole: undefined,
        spare: [endA ? 0 : spares[0], endB ? 0 : spares[1]],
      });
    if (chosen.length >= mostMiddles) return;
    const gapBefore = endA || endB || chosen.length > 0 ? stock.gap : 0;
    for (let i = start; i < middles.length; i++) {
      if (cost - (left + stock.gap) * (density[i] ?? 0) > most) break;
      const need = middles[i] as Need;
      const takes = need.angle + gapBefore;
      if (takes > left + slack || clash(endA, need) || clash(endB, need)) continue;
      if (chosen.some((other) => clash(other, need))) continue;
      fill(endA, endB, i + 1, left - takes, cost - worth.need(need.index), [...chosen, need]);
    }
  };
  const [atA, atB] = [endsFor(inArc, a), endsFor(inArc, b)];
  const [worthA, worthB] = legWorth as [number, number];
  fill(undefined, undefined, 0, room, base - worthA - worthB, []);
  for (const endA of atA)
    fill(endA, undefined, 0, room - endA.angle, base - worth.need(endA.index) - worthB, []);
  if (!even)
    for (const endB of atB)
      fill(undefined, endB, 0, room - endB.angle, base - worth.need(endB.index) - worthA, []);
  for (const endA of atA)
    for (const endB of atB) {
      if ((even && endB.index <= endA.index) || clash(endA, endB)) continue;
      const left = room - endA.angle - endB.angle - stock.gap;
      const cost = base - worth.need(endA.index) - worth.need(endB.index);
      if (left >= -slack) fill(endA, endB, 0, left, cost, []);
    }
}
