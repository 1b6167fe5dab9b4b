import { tolerance } from '../base/tolerance.js';
import { add, length3, type Vector } from '../base/vectors.js';
import { APART_BOUND, gapBetween } from './apart.js';
import { bodyOf, gapToHalfSpace, pointBody, swept, type Body, type HalfSpace } from './bodies.js';
import { pointOn, STRIDE, type PackedLine } from './packed-line.js';

/** A length of tube: its centre line from one station to another (mm); its ends count as round. */
export interface TubeSpan {
  readonly kind: 'tube';
  readonly line: PackedLine;
  readonly span: readonly [from: number, to: number];
  readonly radius: number;
}

/** One thing that moves, or stands in the way. */
export type Shape =
  | { readonly kind: 'body'; readonly body: Body }
  | { readonly kind: 'half space'; readonly halfSpace: HalfSpace }
  | TubeSpan
  /** Any other, by its signed distance, which changes by no more than the way moved. */
  | { readonly kind: 'field'; readonly distance: (x: number, y: number, z: number) => number };

/** What can be moved: a field has no bounds, a half space no end. */
export type Movable = Extract<Shape, { kind: 'body' | 'tube' }>;

/** A bend is covered by capsules along chords that its centre line leaves by no more than this, mm. */
const SAGITTA = 0.02;
/** Smallest step (mm) against a field. */
const FIELD_FLOOR = 1;

/** What a capsule along a chord, thicker by the sagitta, may take in beyond the tube. */
const TUBE_BOUND = 2 * SAGITTA;
/** A plate is told a little larger than its curves, by the `round` it was given. */
const PLATE_BOUND = 0.02;
const FIELDS_BOUND = 2 * FIELD_FLOOR;

/** How far what is told of the sweep of one thing past another may lie below the truth, mm. */
export function boundOf(moving: Movable, still: Shape): number {
  if (still.kind === 'field') return FIELDS_BOUND;
  const tubes = (moving.kind === 'tube' ? 1 : 0) + (still.kind === 'tube' ? 1 : 0);
  return tubes * TUBE_BOUND + PLATE_BOUND + APART_BOUND;
}

/**
 * The least gap (mm) between a thing moved along a straight and one that stands still, over the whole way: never
 * above the truth, below it by at most `boundOf`. Below 0 they run into each other. Gaps above `cap` are not
 * told apart.
 *
 * A convex body sweeps a convex body, so its gap is exact. A tube's straights are capsules as they are, its
 * bends are covered by short ones. Fields have no such shape: a tube is marched past them.
 * @param stop ends early below this: what is told then need not be the least
 */
export function gapOfSweep(
  moving: Movable,
  travel: Vector,
  still: Shape,
  cap: number,
  stop = -Infinity,
): number {
  if (still.kind === 'field') {
    if (moving.kind === 'body') return overBody(swept(moving.body, travel), still.distance, cap, stop);
    return alongTube(moving, cap, onTheWay(still.distance, travel), stop);
  }
  let least = cap;
  for (const body of bodiesOf(moving)) {
    if (least < stop) return least;
    const path = swept(body, travel);
    if (still.kind === 'half space') least = Math.min(least, gapToHalfSpace(path, still.halfSpace));
    else for (const other of bodiesOf(still)) least = Math.min(least, gapBetween(path, other, least));
  }
  return least;
}

const bodiesOf = (shape: Movable): readonly Body[] =>
  shape.kind === 'body' ? [shape.body] : capsulesOf(shape);

const covered = new WeakMap<TubeSpan, readonly Body[]>();

/** A length of tube as capsules that cover it. */
function capsulesOf(tube: TubeSpan): readonly Body[] {
  const before = covered.get(tube);
  if (before !== undefined) return before;
  const { data, pieces } = tube.line;
  const [from, to] = tube.span;
  const bodies: Body[] = [];
  const point = (piece: number, s: number): Vector => {
    pointOn(data, piece, s, here);
    return [here[0] as number, here[1] as number, here[2] as number];
  };
  for (let piece = 0; piece < pieces; piece++) {
    const o = piece * STRIDE;
    const begins = Math.max(from, data[o + 1] as number);
    const long = Math.min(to, (data[o + 1] as number) + (data[o + 2] as number)) - begins;
    if (long < tolerance.samePoint) continue;
    const bend = data[o] !== 0;
    // sagitta = CLR (1 - cos(step / 2))
    const clr = data[o + 12] as number;
    const step = bend ? 2 * Math.acos(Math.max(0, 1 - SAGITTA / clr)) * clr : long;
    const count = Math.ceil(long / step);
    const diameter = 2 * (tube.radius + (bend ? SAGITTA : 0));
    for (let k = 0; k < count; k++) {
      const ends = [k, k + 1].map((i) => point(piece, begins + (long * i) / count)) as [Vector, Vector];
      bodies.push(bodyOf({ kind: 'capsule', from: ends[0], to: ends[1], diameter }));
    }
  }
  covered.set(tube, bodies);
  return bodies;
}

/** Distance (mm) from a point, not above the truth; above `enough` it need not be exact. */
type PointDistance = (x: number, y: number, z: number, enough: number) => number;

/** The least distance of a point that is moved along a straight, by steps that can pass over nothing. */
const onTheWay =
  (distance: (x: number, y: number, z: number) => number, travel: Vector): PointDistance =>
  (x, y, z, enough) => {
    const long = length3(travel);
    let least = enough + long;
    for (let t = 0; ;) {
      const k = long > 0 ? t / long : 0;
      const d = distance(x + k * travel[0], y + k * travel[1], z + k * travel[2]);
      if (d < least) least = d;
      if (t >= long) return least - FIELD_FLOOR / 2;
      t = Math.min(long, t + Math.max(FIELD_FLOOR, d - least));
    }
  };

const here = new Float64Array(3);

/** The least gap from a tube's surface: the march of `leastSpare`, with any distance. */
function alongTube(
  { line, span, radius }: TubeSpan,
  cap: number,
  distance: PointDistance,
  stop: number,
): number {
  const { data, pieces } = line;
  const [from, to] = span;
  let least = cap;
  let piece = 0;
  for (let s = from; ;) {
    while (
      piece < pieces - 1 &&
      s > (data[piece * STRIDE + 1] as number) + (data[piece * STRIDE + 2] as number)
    )
      piece++;
    pointOn(data, piece, s, here);
    const [x, y, z] = [here[0] as number, here[1] as number, here[2] as number];
    const gap = distance(x, y, z, least + radius) - radius;
    if (gap < least) least = gap;
    if (s >= to || least < stop) return least - FIELD_FLOOR / 2;
    s = Math.min(to, s + Math.max(FIELD_FLOOR, gap - least));
  }
}

/**
 * The least of a field over a convex body (mm): cubes about it are split until each is told or cannot matter.
 * Not above the truth, and at most twice FIELD_FLOOR / 2 below it.
 */
function overBody(
  body: Body,
  distance: (x: number, y: number, z: number) => number,
  cap: number,
  stop: number,
): number {
  let least = cap;
  const split = (centre: Vector, half: number): void => {
    const diagonal = half * Math.sqrt(3);
    if (least < stop) return;
    const lowest = distance(...centre) - diagonal;
    if (lowest >= least) return;
    if (gapBetween(pointBody(...centre), body, diagonal) >= diagonal) return;
    if (diagonal <= FIELD_FLOOR / 2) {
      least = lowest;
      return;
    }
    for (let corner = 0; corner < 8; corner++) {
      const side = (bit: number): number => (corner & bit ? half / 2 : -half / 2);
      split(add(centre, [side(1), side(2), side(4)]), half / 2);
    }
  };
  split(body.centre, body.reach);
  return least;
}
