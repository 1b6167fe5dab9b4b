import { tolerance } from '../../base/tolerance.js';
import type { Bend, NoWeld } from './primary.js';
import { insideArc, stockOf, WHOLE_WITHIN, type CuttingRules, type StockBend } from './rules.js';
import { noReach, type Reach } from './share-straight.js';

/**
 * One piece of a bend and what it needs of its stock bend: `middle`, arc only; `end`, the arc at one end with
 * the leg there, sawn to length; `whole`, a stock bend of the very angle with both legs.
 */
export type PieceNeed =
  | { readonly kind: 'middle'; readonly from: number; readonly angle: number }
  | { readonly kind: 'end'; readonly from: number; readonly angle: number; readonly leg: number }
  | {
      readonly kind: 'whole';
      readonly from: number;
      readonly angle: number;
      readonly legs: readonly [up: number, down: number];
    };

/** One way to cut a bend: its pieces in order of the flow (`from` is the angle where each begins). */
export interface BendWay {
  readonly pieces: readonly PieceNeed[];
  /** What its first piece can give to the straight before it, and its last to the straight behind it. */
  readonly up: Reach;
  readonly down: Reach;
}

/** The different usable legs, longest first, of stock that holds an angle. */
const legsFor = (stock: readonly StockBend[], angle: number): number[] =>
  [...new Set(stock.flatMap((s) => (holds(s, angle) ? s.usable : [])))]
    .filter((u) => u > 0)
    .sort((a, b) => b - a);

const holds = (stock: StockBend, angle: number): boolean => stock.room >= angle - tolerance.sameDirection;

/** Every way to cut a bend from the rack; none where the rack has no stock for it. */
export function bendWays(bend: Bend, rules: CuttingRules, zones: readonly NoWeld[]): readonly BendWay[] {
  const stock = stockOf(rules, bend.clr);
  const ways = [...wholeWays(bend, stock)];
  if (stock.some((s) => holds(s, bend.angle))) ways.push(...singleWays(bend, stock, rules));
  else if (ways.length === 0 && rules.splitInArc && stock.length > 0)
    for (const parts of partings(bend, stock, rules, zones)) ways.push(...partedWays(parts, stock));
  return ways;
}

function* wholeWays({ angle }: Bend, stock: readonly StockBend[]): Generator<BendWay> {
  const seen = new Set<string>();
  for (const { angle: own, usable } of stock) {
    if (Math.abs(own - angle) > WHOLE_WITHIN) continue;
    for (const [up, down] of [usable, [usable[1], usable[0]] as const]) {
      const key = `${up} ${down}`;
      if (seen.has(key)) continue;
      seen.add(key);
      yield {
        pieces: [{ kind: 'whole', from: 0, angle, legs: [up, down] }],
        up: { most: up, least: 0 },
        down: { most: down, least: 0 },
      };
    }
  }
}

function singleWays({ clr, angle }: Bend, stock: readonly StockBend[], rules: CuttingRules): BendWay[] {
  const lacking = Math.max(0, rules.leastInsideArc - insideArc(clr, rules.od, angle));
  const ways: BendWay[] = [];
  for (const leg of legsFor(stock, angle)) {
    if (leg < lacking) continue;
    const pieces: PieceNeed[] = [{ kind: 'end', from: 0, angle, leg }];
    const reach: Reach = { most: leg, least: lacking };
    ways.push({ pieces, up: reach, down: noReach }, { pieces, up: noReach, down: reach });
  }
  if (lacking <= tolerance.samePoint)
    ways.push({ pieces: [{ kind: 'middle', from: 0, angle }], up: noReach, down: noReach });
  return ways;
}

/** The ways to part an arc that is over the largest stock angle: lists of angles in order of the flow. */
function partings(
  bend: Bend,
  stock: readonly StockBend[],
  rules: CuttingRules,
  zones: readonly NoWeld[],
): readonly (readonly number[])[] {
  const largest = Math.max(...stock.map(({ room }) => room));
  if (!(largest > 0)) return [];
  const least = rules.leastInsideArc / (bend.clr - rules.od / 2);
  const count = Math.ceil(bend.angle / largest - tolerance.sameDirection);
  const [low, high] = [Math.max(least, bend.angle - largest), Math.min(largest, bend.angle - least)];
  const found: number[][] = [Array.from({ length: count }, () => bend.angle / count)];
  if (count === 2) {
    // A leg is lost or won only where a part reaches the angle of a stock bend, or a weld may begin to stand.
    const edges = zones.flatMap(([from, to]) => [from, to]).map((station) => (station - bend.at) / bend.clr);
    const turns = stock.flatMap(({ room }) => [room, bend.angle - room]);
    for (const first of [low, high, ...turns, ...edges])
      if (first >= low && first <= high) found.push([first, bend.angle - first]);
  }
  const seen = new Set<string>();
  return found.filter((angles) => {
    const key = angles.map((a) => a.toFixed(9)).join(' ');
    if (seen.has(key) || angles.some((a) => a < least - tolerance.sameDirection)) return false;
    seen.add(key);
    let at = bend.at;
    return angles.slice(0, -1).every((angle) => {
      at += angle * bend.clr;
      return mayWeld(at, zones);
    });
  });
}

/** Whether a weld may stand at a station. */
export const mayWeld = (station: number, zones: readonly NoWeld[]): boolean =>
  zones.every(([from, to]) => station <= from + tolerance.samePoint || station >= to - tolerance.samePoint);

/** A parted bend: its first piece may keep a leg upstream, its last one downstream. */
function partedWays(angles: readonly number[], stock: readonly StockBend[]): BendWay[] {
  const last = angles.length - 1;
  const legs = (part: number): number[] => [0, ...legsFor(stock, angles[part] ?? 0)];
  return legs(0).flatMap((up) =>
    legs(last).map((down): BendWay => {
      let from = 0;
      const pieces = angles.map((angle, part): PieceNeed => {
        const leg = part === 0 ? up : part === last ? down : 0;
        const piece: PieceNeed =
          leg > 0 ? { kind: 'end', from, angle, leg } : { kind: 'middle', from, angle };
        from += angle;
        return piece;
      });
      return { pieces, up: { most: up, least: 0 }, down: { most: down, least: 0 } };
    }),
  );
}
