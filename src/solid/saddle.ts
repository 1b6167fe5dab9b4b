import { cosSin } from '../base/numbers.js';
import { distance, type Point } from '../base/points.js';
import {
  add,
  cross3,
  direction,
  dot3,
  length3,
  scale,
  squareTo,
  subtract,
  turnedAbout,
  type Vector,
} from '../base/vectors.js';
import { saddleSpan } from '../design/cradle-limits.js';
import type { CradlePart } from '../design/parts.js';
import { arcBetween, arcFromBulge, line, moved } from '../geom/arcs.js';
import type { Segment } from '../geom/segments.js';

/** The seat of a cradle as plain geometry, in the cradle's frame (mm, rad). */
export interface Saddle {
  /** The tube's, with its clearance. */
  readonly radius: number;
  /** Where the centre line passes over the origin, and the flow there. */
  readonly at: Vector;
  readonly along: Vector;
  readonly bend: SaddleBend | undefined;
  /**
   * Where the block ends, left (y above 0) and right of the tube: seen across it, x and z, from STICKS_OUT
   * before the block's face to as much after the other.
   */
  readonly top: { readonly left: Segment; readonly right: Segment };
  /** How much of the centre line the seat uses, each way. */
  readonly reach: number;
}

export interface SaddleBend {
  readonly centre: Vector;
  /** The flow turns about it, right hand. */
  readonly axis: Vector;
  readonly clr: number;
}

/**
 * The seat: the tube's own surface, larger by the clearance: a cylinder on a straight, a torus on a bend.
 * The block ends level across the tube, at the lips: in one plane that rises with a straight; on a bend, on
 * each side in an arc that follows the lip of that side and is nowhere above it. So the seat reaches as far
 * round as asked and no farther, and the tube lifts straight up.
 */
export function saddleOf(part: CradlePart): Saddle {
  const { od, clearance, height, tilt, embrace, width } = part;
  const radius = od / 2 + clearance;
  const [c, s] = cosSin(tilt);
  const along: Vector = [c, 0, s];
  const at: Vector = [0, 0, height];
  const { reach } = saddleSpan(part);
  const half = width / 2;
  if (!part.bend) {
    const middle = height - (radius * cosSin(embrace / 2)[0]) / c;
    const out = half + STICKS_OUT;
    const rise = out * (s / c);
    const edge = line([-out, middle - rise], [out, middle + rise]);
    return { radius, at, along, bend: undefined, top: { left: edge, right: edge }, reach };
  }
  const { clr, clock } = part.bend;
  const toward = turnedAbout([-s, 0, c], along, clock);
  const bend = { centre: add(at, scale(toward, clr)), axis: cross3(along, toward), clr };
  const lip = (side: 1 | -1): Segment =>
    edgeUnder(half, (x) => lipOver(bend, at, radius, (side * embrace) / 2, x)?.[2] ?? NaN);
  return { radius, at, along, bend, top: { left: lip(1), right: lip(-1) }, reach };
}

/**
 * Whether the seat is open to the sky over the block's middle, as far as `aside` to either side: where it is
 * not, the tube wanders out of the block aside, or one lip stands far above the other.
 */
export function isOpen(saddle: Saddle, width: number, aside: number): boolean {
  for (let i = 0; i <= LOOKS; i++) {
    const x = width * (i / LOOKS - 1 / 2);
    const low = Math.min(topAt(saddle.top.left, x), topAt(saddle.top.right, x));
    const inside = [-aside, 0, aside].every((y) => distanceToTube(saddle, [x, y, low]) < saddle.radius);
    if (!inside) return false;
  }
  return true;
}

/** How far the top's edges are carried on over the block's faces, mm. */
export const STICKS_OUT = 1;

/** The highest place of the block. */
export function highestOf({ top }: Pick<Saddle, 'top'>, width: number): number {
  const half = width / 2;
  return Math.max(
    ...[top.left, top.right].flatMap((edge) => {
      const ends = [topAt(edge, -half), topAt(edge, half)];
      if (edge.kind === 'line' || edge.sweep > 0 || Math.abs(edge.centre[0]) > half) return ends;
      return [...ends, edge.centre[1] + edge.radius];
    }),
  );
}

/** Height at which the block ends on one side, at x. */
export function topAt(edge: Segment, x: number): number {
  if (edge.kind === 'line') {
    return edge.from[1] + ((x - edge.from[0]) / (edge.to[0] - edge.from[0])) * (edge.to[1] - edge.from[1]);
  }
  const over = Math.sqrt(edge.radius * edge.radius - (x - edge.centre[0]) ** 2);
  return edge.centre[1] + (edge.sweep < 0 ? over : -over);
}

/** Steps on which the lips are looked at. */
const LOOKS = 64;
/** What a lip may dip between two looks, mm: far above what a bend of shop size does in such a step. */
const BETWEEN_LOOKS = 1e-3;

/** The arc over [-half, half] by both ends and the middle of a curve, brought under it. */
function edgeUnder(half: number, curve: (x: number) => number): Segment {
  const ends = [curve(-half), curve(half)] as const;
  // From left to right: over the top clockwise, through a dip counter-clockwise.
  const chord = Math.hypot(half, (ends[1] - ends[0]) / 2);
  const bulge = ((curve(0) - (ends[0] + ends[1]) / 2) * half) / (chord * chord);
  const arc = arcFromBulge([-half, ends[0]], [half, ends[1]], Math.abs(bulge) < FLAT ? 0 : -bulge);
  const over = Array.from({ length: LOOKS + 1 }, (_, i) => {
    const x = half * ((2 * i) / LOOKS - 1);
    return topAt(arc, x) - curve(x);
  });
  return moved(carriedOn(arc, half + STICKS_OUT), 0, [0, -Math.max(...over) - BETWEEN_LOOKS]);
}

/** The same line or circle, from -out to out. */
function carriedOn(edge: Segment, out: number): Segment {
  const from: Point = [-out, topAt(edge, -out)];
  const to: Point = [out, topAt(edge, out)];
  if (edge.kind === 'line') return line(from, to);
  const { centre, radius, sweep } = edge;
  const turn = Math.sign(sweep) * 2 * Math.asin(distance(from, to) / (2 * radius));
  return arcBetween(from, to, centre, radius, turn);
}

/** Flatter than this a bend's lip is a straight line; what it loses is made up by bringing it under. */
const FLAT = 1e-4;

/** The place of a lip over x, sought along the bend from the station outward; none within a quarter turn. */
function lipOver(bend: SaddleBend, at: Vector, radius: number, round: number, x: number): Vector | undefined {
  const lip = (turn: number): Vector => lipAt(bend, at, turn, radius, round);
  const way = lip(0)[0] < x ? 1 : -1;
  const step = (way * Math.PI) / 2 / LOOKS;
  const short = (turn: number): boolean => way * (lip(turn)[0] - x) < 0;
  let far = step;
  while (short(far)) {
    far += step;
    if (Math.abs(far) > Math.PI / 2) return undefined;
  }
  let near = far - step;
  for (let i = 0; i < 60; i++) {
    const half = (near + far) / 2;
    if (short(half)) near = half;
    else far = half;
  }
  return lip(near);
}

/** A point of the seat: how far round the bend (rad), and how far round the tube from below (rad). */
function lipAt(
  { centre, axis }: SaddleBend,
  at: Vector,
  turn: number,
  radius: number,
  round: number,
): Vector {
  const arm = turnedAbout(subtract(at, centre), axis, turn);
  const along = direction(cross3(axis, arm));
  const up = direction(squareTo([0, 0, 1], along));
  const [c, s] = cosSin(round);
  const left = cross3(up, along);
  return add(add(centre, arm), add(scale(left, radius * s), scale(up, -radius * c)));
}

/** Unit direction away from the tube's centre line at a place beside it. */
export function awayFromTube({ at, along, bend }: Saddle, place: Vector): Vector {
  if (!bend) return direction(squareTo(subtract(place, at), along));
  const arm = subtract(place, bend.centre);
  const level = squareTo(arm, bend.axis);
  return direction(subtract(arm, scale(level, bend.clr / length3(level))));
}

/** Distance of a place from the tube's centre line, carried on beyond the cradle. */
export function distanceToTube({ at, along, bend }: Saddle, place: Vector): number {
  if (!bend) return length3(squareTo(subtract(place, at), along));
  const arm = subtract(place, bend.centre);
  const off = dot3(arm, bend.axis);
  return Math.hypot(length3(subtract(arm, scale(bend.axis, off))) - bend.clr, off);
}
