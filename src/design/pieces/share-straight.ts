import { tolerance } from '../../base/tolerance.js';
import type { NoWeld, Straight } from './primary.js';
import type { CuttingRules } from './rules.js';

/** How much of a leg a bend piece can give to the straight beside it: at most `most`, and at least `least`. */
export interface Reach {
  readonly most: number;
  readonly least: number;
}

export const noReach: Reach = { most: 0, least: 0 };

/** How a straight is made up: the leg of the piece before it, inserts, the leg of the piece behind it. */
export interface Share {
  readonly before: number;
  readonly inserts: readonly number[];
  readonly behind: number;
}

type Span = readonly [low: number, high: number];
const slack = tolerance.samePoint;

/** The places in [low, high] of a straight where a weld may stand. */
function allowed(low: number, high: number, { at }: Straight, zones: readonly NoWeld[]): Span[] {
  let free: Span[] = low <= high + slack ? [[low, Math.max(low, high)]] : [];
  for (const [from, to] of zones) {
    const [shut, open] = [from - at, to - at];
    free = free.flatMap(([a, b]): Span[] => {
      if (open <= a + slack || shut >= b - slack) return [[a, b]];
      const left: Span[] = shut >= a - slack ? [[a, Math.max(a, shut)]] : [];
      return open <= b + slack ? [...left, [Math.min(open, b), b]] : left;
    });
  }
  return free;
}

/** The place among the spans that is nearest to the one wished for. */
function nearest(spans: readonly Span[], wish: number): number | undefined {
  let best: number | undefined;
  for (const [a, b] of spans) {
    const spot = Math.min(b, Math.max(a, wish));
    if (best === undefined || Math.abs(spot - wish) < Math.abs(best - wish)) best = spot;
  }
  return best;
}

/**
 * Divides a straight with the fewest inserts: none where the legs meet at a place where a weld may stand
 * (nearest its middle), else as little insert as can be. Exact: the places that each further weld can have
 * are carried along as spans. What is sunk at the flange counts for no insert and for no leg: the next seam
 * must keep off the flange's on the short side of an oblique cut too, and an arc must not begin inside the cut.
 * @param before what the piece upstream can give; undefined at the flange
 * @param behind what the piece downstream can give; undefined at the collector
 * @returns undefined where it cannot be made
 */
export function shareStraight(
  straight: Straight,
  before: Reach | undefined,
  behind: Reach | undefined,
  rules: CuttingRules,
  zones: readonly NoWeld[],
): Share | undefined {
  const { length, sunk } = straight;
  const [up, down] = [before ?? noReach, behind ?? noReach];
  const firsts: Span[] = before ? allowed(up.least, Math.min(up.most, length), straight, zones) : [[0, 0]];
  const lasts: Span[] = behind
    ? allowed(Math.max(0, length - down.most), length - down.least, straight, zones)
    : [[length, length]];
  if (before && behind) {
    const spot = nearest(meet(firsts, lasts), length / 2);
    if (spot !== undefined) return { before: spot, inserts: [], behind: length - spot };
  } else if (before ?? behind) {
    // At the flange and at the collector the leg runs to the tube's end: no weld of ours stands there.
    const whole = length <= up.most + down.most + slack && length >= sunk + up.least + down.least - slack;
    if (whole) return { before: before ? length : 0, inserts: [], behind: behind ? length : 0 };
  }
  const { leastInsert, longestInsert } = rules;
  const leastFirst = leastInsert + sunk;
  if (!(longestInsert >= leastFirst)) return undefined;
  const most = Math.floor((length - sunk) / leastInsert + slack);
  /** The places that the end of the insert so far can have. */
  const reached: Span[][] = [firsts];
  for (let count = 1; count <= most; count++) {
    const on = stepOn(reached[count - 1] ?? [], count === 1 ? leastFirst : leastInsert, longestInsert);
    const ends = meet(on, lasts);
    if (ends.length > 0) return insertsBack(reached, ends, straight, rules);
    const next = meet(allowed(0, length, straight, zones), on);
    reached.push(next);
    if (next.length === 0) return undefined;
  }
  return undefined;
}

const meet = (ones: readonly Span[], others: readonly Span[]): Span[] =>
  ones.flatMap(([a, b]) =>
    others.flatMap(([c, d]): Span[] => {
      const [low, high] = [Math.max(a, c), Math.min(b, d)];
      return low <= high + slack ? [[low, Math.max(low, high)]] : [];
    }),
  );

const stepOn = (spans: readonly Span[], least: number, most: number): Span[] =>
  spans.map(([a, b]) => [a + least, b + most]);

/** Walks back from the last weld to the first, keeping the inserts together as short as can be. */
function insertsBack(
  reached: readonly Span[][],
  ends: readonly Span[],
  { length, sunk }: Straight,
  { leastInsert, longestInsert }: CuttingRules,
): Share {
  const leastFirst = leastInsert + sunk;
  const [starts, tail] = [reached[0] ?? [], reached.slice(1)];
  const pairs = ends.flatMap(([c, d]) =>
    starts.flatMap(([a, b]) => {
      if (tail.length > 0) return [{ first: b, last: c, total: c - b }];
      const total = Math.max(leastFirst, c - b);
      if (total > Math.min(longestInsert, d - a) + slack) return [];
      const first = Math.max(a, Math.min(b, d - total));
      return [{ first, last: Math.min(d, first + total), total }];
    }),
  );
  const best = pairs.reduce((least, one) => (one.total < least.total ? one : least));
  const welds = [best.last];
  for (const spans of [...tail].reverse()) {
    const from = welds[0] ?? length;
    const within = meet(spans, [[from - longestInsert, from - leastInsert]]);
    welds.unshift(nearest(within, from - longestInsert) ?? from);
  }
  // With several inserts the first weld is wherever the second can be reached from, as far on as possible.
  const second = welds[0] ?? length;
  const first =
    tail.length === 0
      ? best.first
      : (nearest(meet(starts, [[second - longestInsert, second - leastFirst]]), second - leastFirst) ??
        best.first);
  const stations = [first, ...welds];
  const inserts = stations.slice(1).map((to, i) => to - (stations[i] ?? 0));
  return { before: first, inserts, behind: length - best.last };
}
