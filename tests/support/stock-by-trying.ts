import type { CuttingRules } from '../../src/design/pieces/rules.js';
import { piecesOfWay, type BendToCut, type InsertToCut } from '../../src/design/pieces/way-pieces.js';
import { END, type Step, type Ways } from '../../src/design/pieces/ways.js';

/* The cheapest stock by trying everything: every way, every place for every piece. For small jobs only. */

const EPS = 1e-6;

/** Every way through a primary. */
export function everyWay({ steps }: Ways): (readonly Step[])[] {
  const ways: (readonly Step[])[] = [];
  const go = (i: number, state: string, way: readonly Step[]): void => {
    if (state === END) ways.push(way);
    else for (const step of steps[i] ?? []) if (step.from === state) go(i + 1, step.to, [...way, step]);
  };
  go(0, 'flange', []);
  return ways;
}

interface Item {
  stock: CuttingRules['bends'][number];
  ends: [boolean, boolean];
  count: number;
  angle: number;
  whole: boolean;
}

export const cheapestByTrying = (primaries: readonly Ways[], rules: CuttingRules): number =>
  cheapestOfWays(primaries, rules, () => true);

/** The same over only those choices of ways that are allowed. */
export function cheapestOfWays(
  primaries: readonly Ways[],
  rules: CuttingRules,
  allowed: (chosen: readonly (readonly Step[])[]) => boolean,
): number {
  let best = Infinity;
  const combine = (i: number, chosen: (readonly Step[])[]): void => {
    if (i < primaries.length) {
      for (const way of everyWay(primaries[i] as Ways)) combine(i + 1, [...chosen, way]);
      return;
    }
    if (!allowed(chosen)) return;
    const pieces = chosen.flatMap((way, p) => piecesOfWay(p, primaries[p] as Ways, way));
    const bends = pieces
      .filter((one): one is BendToCut => one.kind === 'bend')
      .sort((a, b) => b.angle - a.angle);
    const inserts = pieces
      .filter((one): one is InsertToCut => one.kind === 'insert')
      .sort((a, b) => b.length - a.length);
    best = Math.min(best, placeBends(bends, inserts, rules, best));
  };
  combine(0, []);
  return best;
}

function placeBends(bends: BendToCut[], inserts: InsertToCut[], rules: CuttingRules, atMost: number): number {
  let best = atMost;
  const items: Item[] = [];
  const tryIn = (item: Item, piece: BendToCut, then: () => void): void => {
    if (item.whole) return;
    const { stock } = item;
    const { legUp, legDown } = piece;
    if (item.count === 0 && Math.abs(stock.angle - piece.angle) <= (0.05 * Math.PI) / 180) {
      const [a, b] = stock.usable;
      if ((a >= legUp - EPS && b >= legDown - EPS) || (b >= legUp - EPS && a >= legDown - EPS)) {
        item.whole = true;
        then();
        item.whole = false;
      }
    }
    const leg = Math.max(legUp, legDown);
    if (Math.min(legUp, legDown) > EPS) return;
    const takes = piece.angle + (item.count > 0 ? stock.gap : 0);
    const raw = stock.usable.filter((x) => x === 0).length * stock.gap;
    if (item.angle + takes > stock.angle - raw + 1e-9) return;
    item.angle += takes;
    item.count++;
    if (leg <= EPS) then();
    else
      for (const end of [0, 1] as const) {
        if (item.ends[end] || stock.usable[end] < leg - EPS) continue;
        item.ends[end] = true;
        then();
        item.ends[end] = false;
      }
    item.count--;
    item.angle -= takes;
  };
  const go = (i: number, cost: number): void => {
    if (cost >= best - EPS) return;
    const piece = bends[i];
    if (!piece) {
      best = Math.min(best, placeInserts(inserts, items, rules, cost, best));
      return;
    }
    for (const item of items) if (item.stock.clr === piece.clr) tryIn(item, piece, () => go(i + 1, cost));
    for (const stock of rules.bends) {
      if (stock.clr !== piece.clr || items.filter((x) => x.stock === stock).length >= stock.quantity)
        continue;
      const item: Item = { stock, ends: [false, false], count: 0, angle: 0, whole: false };
      items.push(item);
      tryIn(item, piece, () => go(i + 1, cost + stock.price));
      items.pop();
    }
  };
  go(0, 0);
  return best;
}

function placeInserts(
  inserts: InsertToCut[],
  items: Item[],
  rules: CuttingRules,
  start: number,
  atMost: number,
): number {
  let best = atMost;
  const legs = items.flatMap((item) =>
    item.whole
      ? []
      : ([0, 1] as const).flatMap((end) =>
          item.ends[end] ? [] : [{ length: item.stock.spareLeg[end], used: false }],
        ),
  );
  const sticks: { stock: CuttingRules['straights'][number]; left: number }[] = [];
  const go = (i: number, cost: number): void => {
    if (cost >= best - EPS) return;
    const insert = inserts[i];
    if (!insert) {
      best = cost;
      return;
    }
    for (const leg of legs) {
      if (leg.used || leg.length < insert.length - EPS) continue;
      leg.used = true;
      go(i + 1, cost);
      leg.used = false;
    }
    const takes = insert.length + rules.straightGap;
    for (const stick of sticks) {
      if (stick.left < takes - EPS) continue;
      stick.left -= takes;
      go(i + 1, cost);
      stick.left += takes;
    }
    for (const stock of rules.straights) {
      const room = stock.length - 2 * rules.saw.rawTrim + rules.straightGap;
      if (room < takes - EPS || sticks.filter((x) => x.stock === stock).length >= stock.quantity) continue;
      sticks.push({ stock, left: room - takes });
      go(i + 1, cost + stock.price);
      sticks.pop();
    }
  };
  go(0, start);
  return best;
}
