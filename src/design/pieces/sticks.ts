import { tolerance } from '../../base/tolerance.js';
import type { RackStraight } from '../../job/rack.js';
import { stickLength, type CuttingRules } from './rules.js';

/** One stick and which of the inserts (by their place in the list) are sawn from it. */
export interface FilledStick {
  readonly stock: RackStraight;
  readonly inserts: readonly number[];
}

export interface StickPlan {
  /** Undefined where the rack has not enough, if that is proved, or where none was found. */
  readonly sticks: readonly FilledStick[] | undefined;
  /** Infinity without sticks. */
  readonly cost: number;
  /** Whether nothing is cheaper; a long list is packed well but unproved. */
  readonly proved: boolean;
}

interface Open {
  readonly stock: RackStraight;
  left: number;
  readonly inserts: number[];
}

const slack = tolerance.samePoint;

/**
 * Saws inserts from sticks at the least cost: longest first into every stick where it fits, by branch and
 * bound on the volume that is left to buy. A gap is lost between two inserts; both raw ends are trimmed.
 * @param looks how many branches may be looked at
 */
export function packSticks(inserts: readonly number[], rules: CuttingRules, looks = 100_000): StickPlan {
  const { saw, straightGap: gap } = rules;
  const order = inserts.map((_, i) => i).sort((a, b) => (inserts[b] ?? 0) - (inserts[a] ?? 0));
  const room = (stock: RackStraight): number => stickLength(stock, saw) + gap;
  const stocks = [...rules.straights].filter((s) => room(s) > gap).sort((a, b) => a.price - b.price);
  const cheapest = Math.min(...stocks.map((s) => s.price / room(s)));
  const behind = order.map((_, i) =>
    order.slice(i).reduce((sum, insert) => sum + (inserts[insert] ?? 0) + gap, 0),
  );
  let best: { cost: number; sticks: FilledStick[] } | undefined;
  let left = looks;
  const open: Open[] = [];
  const used = new Map<RackStraight, number>();

  const place = (next: number, cost: number): void => {
    if (left-- < 0) return;
    const insert = order[next];
    if (insert === undefined) {
      if (best && cost > best.cost - PENNY) return;
      best = { cost, sticks: open.map(({ stock, inserts: of }) => ({ stock, inserts: [...of] })) };
      return;
    }
    const space = open.reduce((sum, stick) => sum + stick.left, 0);
    const lacking = Math.max(0, (behind[next] ?? 0) - space) * (stocks.length > 0 ? cheapest : 0);
    if (best && cost + lacking > best.cost - PENNY) return;
    const takes = (inserts[insert] ?? 0) + gap;
    const tried = new Set<string>();
    for (const stick of [...open].sort((a, b) => a.left - b.left)) {
      const alike = stick.left.toFixed(6);
      if (stick.left < takes - slack || tried.has(alike)) continue;
      tried.add(alike);
      stick.left -= takes;
      stick.inserts.push(insert);
      place(next + 1, cost);
      stick.inserts.pop();
      stick.left += takes;
    }
    for (const stock of stocks) {
      const count = used.get(stock) ?? 0;
      if (count >= stock.quantity || room(stock) < takes - slack) continue;
      used.set(stock, count + 1);
      open.push({ stock, left: room(stock) - takes, inserts: [insert] });
      place(next + 1, cost + stock.price);
      open.pop();
      used.set(stock, count);
    }
  };
  place(0, 0);
  return { sticks: best?.sticks, cost: best?.cost ?? Infinity, proved: left >= 0 };
}

/** Costs nearer than this are the same cost. */
export const PENNY = 1e-6;

/** More than any rack costs: what inserts are charged that no sticks are left for. */
export const NO_STICKS = 1e6;
