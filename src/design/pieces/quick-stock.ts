import { tolerance } from '../../base/tolerance.js';
import { SAME_CLR, stockOf, WHOLE_WITHIN, type CuttingRules, type StockBend } from './rules.js';
import { packSticks } from './sticks.js';
import { costOf, type BendUse, type StockPlan } from './stock-plan.js';
import { piecesOfWay, type BendToCut, type InsertToCut, type PieceToCut } from './way-pieces.js';
import { lightestWay, type Step, type Weight, type Ways } from './ways.js';

/** A stock bend while pieces are laid into it. */
interface Laid {
  readonly stock: StockBend;
  endA: BendToCut | undefined;
  endB: BendToCut | undefined;
  middles: BendToCut[];
  whole: BendToCut | undefined;
  left: number;
  inserts: [InsertToCut | undefined, InsertToCut | undefined];
}

const slack = tolerance.sameDirection;

/**
 * A whole plan in a few milliseconds: in each primary the way of fewest pieces that takes the least stock by
 * weight of price, then pieces by falling angle into the first stock bend where they fit (first fit
 * decreasing), inserts into spare legs, the rest into sticks.
 * @returns the plan, or the pieces that the rack has not enough for
 */
export function quickStock(
  primaries: readonly Ways[],
  rules: CuttingRules,
): { readonly plan: StockPlan | undefined; readonly lacking: readonly PieceToCut[] } {
  const ways: (readonly Step[])[] = [];
  for (const one of primaries) {
    const way = lightestWay(one, byPrice(one, rules));
    if (way === undefined) return { plan: undefined, lacking: [] };
    ways.push(way);
  }
  const made = stockForWays(primaries, ways, rules);
  return 'cost' in made ? { plan: made, lacking: [] } : { plan: undefined, lacking: made };
}

/** Pieces first, then the price of the stock that they take up, then welds out of arcs. */
function byPrice({ course }: Ways, rules: CuttingRules): Weight {
  const stick = Math.min(...rules.straights.map((s) => s.price / s.length), Infinity);
  const dearest = Math.max(
    1,
    ...rules.bends.map(({ price }) => price),
    ...rules.straights.map((s) => s.price),
  );
  return (step) => {
    const clr = course.bends[step.straight]?.clr ?? 0;
    const bends = (step.bend?.pieces ?? []).map(({ angle, kind }) => {
      const shares = stockOf(rules, clr).map((s) =>
        kind === 'whole' ? s.price : s.price * Math.min(1, (angle + s.gap) / s.angle),
      );
      return Math.min(...shares, dearest);
    });
    const inserts = step.share.inserts.map((length) => (stick < Infinity ? stick * length : dearest));
    const price = [...bends, ...inserts].reduce((sum, one) => sum + one, 0);
    return step.pieces + (1e-3 * price) / dearest + 1e-7 * step.arcWelds;
  };
}

function stockForWays(
  primaries: readonly Ways[],
  ways: readonly (readonly Step[])[],
  rules: CuttingRules,
): StockPlan | readonly PieceToCut[] {
  const pieces = ways.flatMap((way, i) => piecesOfWay(i, primaries[i] as Ways, way));
  const bends = pieces.filter((piece) => piece.kind === 'bend').sort((a, b) => b.angle - a.angle);
  const laid: Laid[] = [];
  for (const piece of bends) {
    if (laid.some((one) => layInto(one, piece))) continue;
    const fresh = rules.bends
      .filter((stock) => laid.filter((one) => one.stock === stock).length < stock.quantity)
      .sort((a, b) => a.price - b.price)
      .map((stock): Laid => {
        return {
          stock,
          endA: undefined,
          endB: undefined,
          middles: [],
          whole: undefined,
          left: stock.room,
          inserts: [undefined, undefined],
        };
      })
      .find((one) => layInto(one, piece));
    if (fresh === undefined) return [piece];
    laid.push(fresh);
  }
  const inserts = pieces.filter((piece) => piece.kind === 'insert').sort((a, b) => b.length - a.length);
  const fromSticks = inserts.filter((insert) => !intoSpareLeg(laid, insert));
  const packed = packSticks(
    fromSticks.map(({ length }) => length),
    rules,
    2000,
  );
  if (packed.sticks === undefined) return fromSticks;
  const sticks = packed.sticks.map(({ stock, inserts: of }) => {
    return { stock, inserts: of.flatMap((i) => fromSticks[i] ?? []) };
  });
  const uses: BendUse[] = laid.map(({ stock, endA, middles, endB, whole, inserts: legs }) => {
    return { stock, endA, middles, endB, whole, inserts: legs };
  });
  return { ways, bends: uses, sticks, cost: costOf(uses, sticks) };
}

/** Lays a piece into a stock bend if it fits there, an end with the shortest leg that will do. */
function layInto(laid: Laid, piece: BendToCut): boolean {
  const { stock } = laid;
  if (Math.abs(stock.clr - piece.clr) > SAME_CLR || laid.whole) return false;
  const empty = !laid.endA && !laid.endB && laid.middles.length === 0;
  if (piece.cut.kind === 'whole') {
    const [a, b] = stock.usable;
    const [up, down] = [piece.legUp - tolerance.samePoint, piece.legDown - tolerance.samePoint];
    const legsFit = (a >= up && b >= down) || (b >= up && a >= down);
    if (!empty || !legsFit || Math.abs(stock.angle - piece.angle) > WHOLE_WITHIN) return false;
    laid.whole = piece;
    laid.left = 0;
    return true;
  }
  const takes = piece.angle + (empty ? 0 : stock.gap);
  if (takes > laid.left + slack) return false;
  const leg = Math.max(piece.legUp, piece.legDown);
  if (leg <= tolerance.samePoint) laid.middles.push(piece);
  else {
    const fits = (end: 0 | 1): boolean =>
      !(end === 0 ? laid.endA : laid.endB) && stock.usable[end] >= leg - tolerance.samePoint;
    const end = ([0, 1] as const).filter(fits).sort((x, y) => stock.usable[x] - stock.usable[y])[0];
    if (end === undefined) return false;
    if (end === 0) laid.endA = piece;
    else laid.endB = piece;
  }
  laid.left -= takes;
  return true;
}

/** Saws an insert from the shortest unused leg that is long enough. */
function intoSpareLeg(laid: readonly Laid[], insert: InsertToCut): boolean {
  const spare = laid
    .filter(({ whole }) => !whole)
    .flatMap((one) =>
      ([0, 1] as const).flatMap((end) => {
        const taken = (end === 0 ? one.endA : one.endB) ?? one.inserts[end];
        const length = one.stock.spareLeg[end];
        return taken || length < insert.length - tolerance.samePoint ? [] : [{ one, end, length }];
      }),
    )
    .sort((a, b) => a.length - b.length)[0];
  if (spare) spare.one.inserts[spare.end] = insert;
  return spare !== undefined;
}
