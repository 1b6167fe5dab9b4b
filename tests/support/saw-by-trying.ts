import type { Rack, RackBend, RackStraight } from '../../src/job/rack.js';
import { gapOf, LEAST_INSIDE, roomOf, type BendPiece, type TriedWay } from './plan-by-trying.js';

/* Pieces into stock by trying every place for every piece. Nothing of the planner is used. mm, rad. */

const EPS = 1e-6;
const WHOLE = (0.05 * Math.PI) / 180;

interface Begun {
  readonly stock: RackBend;
  readonly room: number;
  readonly gap: number;
  taken: number;
  count: number;
  readonly ends: [boolean, boolean];
  whole: boolean;
}

/** How many places may be tried before a job is given up as too large. */
export interface Patience {
  left: number;
}

/**
 * The least that the pieces of some way of each tube cost, if it is less than `below`.
 * @param allowed which choices of ways count, by the number of pieces of all tubes together
 */
export function leastCost(
  tubes: readonly (readonly TriedWay[])[],
  rack: Rack,
  below: number,
  mostPieces: number,
  patience: Patience,
): number {
  let best = below;
  const pick = (i: number, bends: readonly BendPiece[], inserts: readonly number[]): void => {
    if (bends.length + inserts.length > mostPieces) return;
    const ways = tubes[i];
    if (ways === undefined) best = sawn(bends, inserts, rack, best, patience);
    else for (const way of ways) pick(i + 1, [...bends, ...way.bends], [...inserts, ...way.inserts]);
  };
  pick(0, [], []);
  return best;
}

function sawn(
  pieces: readonly BendPiece[],
  inserts: readonly number[],
  rack: Rack,
  below: number,
  patience: Patience,
): number {
  let best = below;
  const bends = [...pieces].sort((a, b) => b.angle - a.angle);
  const cheapest = new Map<number, number>();
  for (const { clr } of bends)
    cheapest.set(
      clr,
      Math.min(
        ...rack.bends
          .filter((one) => Math.abs(one.clr - clr) <= 0.05)
          .map((one) => one.price / Math.max(1e-9, one.angle)),
      ),
    );
  const begun: Begun[] = [];
  const usable = (stock: RackBend, end: 0 | 1): number => Math.max(0, stock.legs[end] - rack.saw.rawTrim);

  /** What the pieces from `i` on must cost at the least, by their share of the arc of the cheapest stock. */
  const rest = (i: number): number => {
    let sum = 0;
    for (const [clr, price] of cheapest) {
      let lacking = 0;
      for (const one of bends.slice(i)) if (one.clr === clr) lacking += one.angle - WHOLE;
      for (const one of begun)
        if (!one.whole && Math.abs(one.stock.clr - clr) <= 0.05)
          lacking -= Math.max(0, one.stock.angle - one.taken);
      sum += Math.max(0, lacking) * price;
    }
    return sum;
  };

  const into = (item: Begun, piece: BendPiece, then: () => void): void => {
    if (item.whole) return;
    const { stock } = item;
    const legs = [usable(stock, 0), usable(stock, 1)] as const;
    const fits = (a: number, b: number): boolean => legs[0] >= a - EPS && legs[1] >= b - EPS;
    if (!piece.part && item.count === 0 && Math.abs(stock.angle - piece.angle) <= WHOLE + 1e-12)
      if (fits(piece.up, piece.down) || fits(piece.down, piece.up)) {
        item.whole = true;
        then();
        item.whole = false;
      }
    const leg = Math.max(piece.up, piece.down);
    if (Math.min(piece.up, piece.down) > EPS) return;
    if ((piece.clr - rack.tube.od / 2) * piece.angle + leg < LEAST_INSIDE - EPS) return;
    const takes = piece.angle + (item.count > 0 ? item.gap : 0);
    if (item.taken + takes > item.room + 1e-9) return;
    item.taken += takes;
    item.count++;
    if (leg <= EPS) then();
    else
      for (const end of [0, 1] as const) {
        if (item.ends[end] || legs[end] < leg - EPS) continue;
        if (end === 1 && !item.ends[0] && legs[0] === legs[1]) continue;
        item.ends[end] = true;
        then();
        item.ends[end] = false;
      }
    item.count--;
    item.taken -= takes;
  };

  const go = (i: number, cost: number): void => {
    if (patience.left-- < 0 || cost + rest(i) >= best - EPS) return;
    const piece = bends[i];
    if (!piece) {
      best = fromLegsAndSticks(inserts, begun, rack, cost, best, patience);
      return;
    }
    const next = (more: number) => () => go(i + 1, cost + more);
    for (const item of begun) if (Math.abs(item.stock.clr - piece.clr) <= 0.05) into(item, piece, next(0));
    for (const stock of rack.bends) {
      if (Math.abs(stock.clr - piece.clr) > 0.05) continue;
      if (begun.filter((one) => one.stock === stock).length >= stock.quantity) continue;
      const item: Begun = {
        stock,
        room: roomOf(stock, rack),
        gap: gapOf(stock, rack),
        taken: 0,
        count: 0,
        ends: [false, false],
        whole: false,
      };
      begun.push(item);
      into(item, piece, next(stock.price));
      begun.pop();
    }
  };
  go(0, 0);
  return best;
}

/** Inserts, the longest first, each from an unused leg, a stick begun or a new one. */
function fromLegsAndSticks(
  lengths: readonly number[],
  begun: readonly Begun[],
  rack: Rack,
  start: number,
  below: number,
  patience: Patience,
): number {
  const { kerf, dress, rawTrim } = rack.saw;
  const gap = kerf + 2 * dress;
  let best = below;
  const inserts = [...lengths].sort((a, b) => b - a);
  const legs = begun
    .filter(({ whole }) => !whole)
    .flatMap(({ stock, ends }) => stock.legs.filter((_, end) => !ends[end]))
    .map((leg) => ({ length: leg - gap - rawTrim, used: false }))
    .sort((a, b) => a.length - b.length);
  const sticks: { stock: RackStraight; left: number }[] = [];
  const go = (i: number, cost: number): void => {
    if (patience.left-- < 0 || cost >= best - EPS) return;
    const insert = inserts[i];
    if (insert === undefined) {
      best = cost;
      return;
    }
    let tried = NaN;
    for (const leg of legs) {
      if (leg.used || leg.length < insert - EPS || leg.length === tried) continue;
      tried = leg.length;
      leg.used = true;
      go(i + 1, cost);
      leg.used = false;
    }
    for (const stick of sticks) {
      if (stick.left < insert + gap - EPS) continue;
      stick.left -= insert + gap;
      go(i + 1, cost);
      stick.left += insert + gap;
    }
    for (const stock of rack.straights) {
      const room = stock.length - 2 * rawTrim + gap;
      if (room < insert + gap - EPS) continue;
      if (sticks.filter((one) => one.stock === stock).length >= stock.quantity) continue;
      sticks.push({ stock, left: room - insert - gap });
      go(i + 1, cost + stock.price);
      sticks.pop();
    }
  };
  go(0, start);
  return best;
}
