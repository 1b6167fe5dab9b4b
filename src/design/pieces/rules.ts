import { radians } from '../../base/numbers.js';
import type { Rack, RackBend, RackStraight, Saw } from '../../job/rack.js';

/** A stock bend as the saw sees it. */
export interface StockBend extends RackBend {
  /** What a piece can keep of each leg: the leg less the raw trim, never below 0. */
  readonly usable: readonly [a: number, b: number];
  /** The longest insert that each leg gives when no piece keeps it. */
  readonly spareLeg: readonly [a: number, b: number];
  /** The arc that pieces can share: less a gap at an end without a leg, as its raw face is sawn off too. */
  readonly room: number;
  /** Angle lost between two pieces cut from its arc, rad. */
  readonly gap: number;
}

/** What pieces may be like, and what they are sawn from. mm and rad. */
export interface CuttingRules {
  readonly od: number;
  readonly saw: Saw;
  readonly bends: readonly StockBend[];
  readonly straights: readonly RackStraight[];
  /** The longest insert from a stick; 0 where the rack holds none. */
  readonly longestInsert: number;
  /** Length lost between two pieces of a straight. */
  readonly straightGap: number;
  /** The shortest insert. */
  readonly leastInsert: number;
  /** The least wall, at the inside of the bend, between the two ends of a bend piece; its legs count. */
  readonly leastInsideArc: number;
  /** Whether a bend over the largest stock angle may be welded from parts inside its arc. */
  readonly splitInArc: boolean;
}

export interface CuttingChoices {
  /** Default 20 (common practice). */
  readonly leastInsert?: number;
  /** Default 12 (common practice). */
  readonly leastInsideArc?: number;
  /** Default yes. */
  readonly splitInArc?: boolean;
}

/** A stock bend serves whole where its angle is the route's within this. Common practice, no source. */
export const WHOLE_WITHIN = radians(0.05);

/** Radii nearer than this are one radius (mm): no tape tells them apart. Common practice, no source. */
export const SAME_CLR = 0.05;

/** Length lost between two pieces sawn from a straight: the cut, and both faces dressed flat. */
export const straightGap = ({ kerf, dress }: Saw): number => kerf + 2 * dress;

/**
 * Angle lost between two pieces sawn from an arc, each face lying in a plane that holds the bend's centre
 * axis: asin(kerf / (CLR - D/2)) + 2 dress / (CLR - D/2). The blade is flat and the faces are radial, so the
 * whole kerf is needed at the inside of the bend; kerf / CLR would be too small.
 * @returns rad; a quarter turn at most, where the kerf is wider than the inside radius
 */
export function arcGap({ kerf, dress }: Saw, clr: number, od: number): number {
  const inside = clr - od / 2;
  return Math.asin(Math.min(1, kerf / inside)) + (2 * dress) / inside;
}

/** The arc at the inside of a bend, mm: (CLR - D/2) x angle. */
export const insideArc = (clr: number, od: number, angle: number): number => (clr - od / 2) * angle;

/** What is left of a raw leg, mm. */
export const usableLeg = (leg: number, { rawTrim }: Saw): number => Math.max(0, leg - rawTrim);

/** The rules of a rack, with the choices of the shop. */
export function cuttingRules(rack: Rack, choices: CuttingChoices = {}): CuttingRules {
  const { saw, tube } = rack;
  const gap = straightGap(saw);
  const bends = rack.bends.filter(({ quantity }) => quantity > 0);
  const straights = rack.straights.filter(({ quantity }) => quantity > 0);
  return {
    od: tube.od,
    saw,
    bends: bends.map((bend) => {
      const usable = [usableLeg(bend.legs[0], saw), usableLeg(bend.legs[1], saw)] as const;
      const lost = arcGap(saw, bend.clr, tube.od);
      return {
        ...bend,
        usable,
        spareLeg: [usableLeg(bend.legs[0] - gap, saw), usableLeg(bend.legs[1] - gap, saw)],
        room: bend.angle - usable.filter((leg) => leg === 0).length * lost,
        gap: lost,
      };
    }),
    straights,
    longestInsert: longestInsertOf(straights, saw),
    straightGap: gap,
    leastInsert: choices.leastInsert ?? 20,
    leastInsideArc: choices.leastInsideArc ?? 12,
    splitInArc: choices.splitInArc ?? true,
  };
}

/** The same rules with only what can be bought at any time. */
export function withoutLimited(rules: CuttingRules): CuttingRules {
  const straights = rules.straights.filter(({ quantity }) => quantity === Infinity);
  return {
    ...rules,
    bends: rules.bends.filter(({ quantity }) => quantity === Infinity),
    straights,
    longestInsert: longestInsertOf(straights, rules.saw),
  };
}

/** What a stick gives: its length, both raw ends trimmed. */
export const stickLength = (straight: RackStraight, { rawTrim }: Saw): number =>
  straight.length - 2 * rawTrim;

const longestInsertOf = (straights: readonly RackStraight[], saw: Saw): number =>
  Math.max(0, ...straights.map((straight) => stickLength(straight, saw)));

/** The stock of one radius. */
export const stockOf = (rules: CuttingRules, clr: number): readonly StockBend[] =>
  rules.bends.filter((bend) => Math.abs(bend.clr - clr) <= SAME_CLR);
