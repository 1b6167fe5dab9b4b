import type { Ways } from '../../src/design/pieces/ways.js';
import type { CuttingRules, StockBend } from '../../src/design/pieces/rules.js';
import { piecesOfWay, type BendToCut } from '../../src/design/pieces/way-pieces.js';
import { everyWay } from './stock-by-trying.js';

/*
 * Stock as one would choose it by hand: the first way of fewest welds for every primary, the largest piece first
 * into the first bend or stick already begun that it fits, else a new one, the cheapest that holds it.
 */

interface Begun {
  readonly stock: StockBend;
  room: number;
  readonly ends: boolean[];
}

/** What that costs; undefined where a piece fits nothing on the rack. */
export function firstFit(primaries: readonly Ways[], rules: CuttingRules): number | undefined {
  const pieces = primaries.flatMap((ways, i) => piecesOfWay(i, ways, everyWay(ways)[0] ?? []));
  const bends = pieces
    .filter((one): one is BendToCut => one.kind === 'bend')
    .sort((a, b) => b.angle - a.angle);
  const begun: Begun[] = [];
  let cost = 0;
  for (const piece of bends) {
    if (begun.some((one) => takes(one, piece))) continue;
    const fresh = [...rules.bends]
      .sort((a, b) => a.price - b.price)
      .map((stock): Begun => ({ stock, room: stock.room + stock.gap, ends: [true, true] }))
      .find((one) => takes(one, piece));
    if (fresh === undefined) return undefined;
    begun.push(fresh);
    cost += fresh.stock.price;
  }
  const sticks: number[] = [];
  const [stick] = rules.straights;
  const inserts = pieces.flatMap((one) => (one.kind === 'insert' ? [one.length] : [])).sort((a, b) => b - a);
  for (const length of inserts) {
    const at = sticks.findIndex((left) => left >= length);
    if (at >= 0) sticks[at] = (sticks[at] ?? 0) - length - rules.straightGap;
    else {
      if (stick === undefined || stick.length - 2 * rules.saw.rawTrim < length) return undefined;
      sticks.push(stick.length - 2 * rules.saw.rawTrim - length - rules.straightGap);
      cost += stick.price;
    }
  }
  return cost;
}

/** Puts a piece into a stock bend where it fits: by its leg's end, whole, or into the middle. */
function takes(one: Begun, { clr, angle, legUp, legDown }: BendToCut): boolean {
  const { stock, ends } = one;
  if (Math.abs(stock.clr - clr) > 0.05) return false;
  const untouched = one.room >= stock.room + stock.gap;
  const [a, b] = stock.usable;
  if (Math.min(legUp, legDown) > 1e-6) {
    const alike = Math.abs(stock.angle - angle) < (0.05 * Math.PI) / 180;
    const holds = (a >= legUp && b >= legDown) || (b >= legUp && a >= legDown);
    if (!untouched || !alike || !holds) return false;
    one.room = 0;
    return true;
  }
  if (one.room < angle + stock.gap) return false;
  const leg = Math.max(legUp, legDown);
  if (leg > 1e-6) {
    const end = ends.findIndex((free, i) => free && (stock.usable[i] ?? 0) >= leg);
    if (end < 0) return false;
    ends[end] = false;
  }
  one.room -= angle + stock.gap;
  return true;
}
