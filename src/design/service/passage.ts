import { tolerance } from '../../base/tolerance.js';
import { dot3, scale, type Vector } from '../../base/vectors.js';
import { leaves } from '../../geom/apart.js';
import { gapToHalfSpace } from '../../geom/bodies.js';
import { boundOf, gapOfSweep, type Movable, type Shape, type TubeSpan } from '../../geom/sweep.js';
import type { Piece, Thing } from './things.js';

/** Something drawn along a straight. */
export interface Motion {
  readonly pieces: readonly Piece[];
  /** Unit direction. */
  readonly way: Vector;
  /** mm */
  readonly distance: number;
  /** Kept to what is in place, mm. */
  readonly margin: number;
}

/** How one motion passes one thing. */
export interface Passage {
  /** Least gap on the way where it is free (mm), never above the truth; capped. Below 0: inside it. */
  readonly gap: number;
  /** The piece of the thing that is nearest. */
  readonly nearest: string;
  /** How far the motion gets before the margin is gone, mm; undefined where it passes. */
  readonly reach: number | undefined;
  /** They run into each other where they stand, as the job draws them: nothing is judged between them. */
  readonly overlaps: boolean;
}

/** Gaps above this are not told apart, mm. */
export const FAR = 300;
/** How finely the way to where a motion stops is found, mm. */
const FINE = 0.005;
const FINE_PAST_FIELDS = 0.25;

/** How a motion passes a thing that stands still. */
export function passageOf(motion: Motion, thing: Thing, waiveContact = true): Passage {
  let [gap, nearest, reach, overlaps]: [number, string, number | undefined, boolean] = [
    FAR,
    '',
    undefined,
    false,
  ];
  for (const mover of motion.pieces)
    for (const piece of thing.pieces) {
      const pair = shapesFor(mover, piece);
      if (pair === undefined) continue;
      const found = passPair(motion, ...pair, gap, waiveContact);
      overlaps ||= found.overlaps;
      // A tube begins on its own head: how near it stands there says nothing of the way off.
      if (found.reach === undefined && mover.tube && piece.headOf.includes(mover.tube.primary)) continue;
      if (found.reach !== undefined && found.reach < (reach ?? Infinity)) {
        reach = found.reach;
        nearest = piece.name;
      }
      if (found.gap < gap) {
        gap = found.gap;
        if (reach === undefined) nearest = piece.name;
      }
    }
  return { gap, nearest, reach, overlaps };
}

type PairPassage = Pick<Passage, 'gap' | 'reach' | 'overlaps'>;

/**
 * One pair. What stands nearer than the margin before anything moves need only not be approached: a flange lies
 * on its head. It may slide along or leave; and what overlaps as drawn cannot be judged, and is told.
 */
function passPair(
  { way, distance, margin }: Motion,
  moving: Movable,
  still: Shape,
  cap: number,
  waiveContact: boolean,
): PairPassage {
  const bound = boundOf(moving, still);
  const over = (t: number, upTo: number, stop?: number): number =>
    gapOfSweep(moving, scale(way, t), still, upTo, stop);
  const upTo = Math.max(cap, margin + 2 * bound);
  const whole = over(distance, upTo);
  // The bound is taken from the margin, so that what just passes is not refused for the measuring.
  let least = margin - bound;
  if (whole >= least) return { gap: whole < cap - bound ? whole : cap, reach: undefined, overlaps: false };
  const standing = over(0, upTo);
  if (standing < least) {
    if (!waiveContact || distance === 0) return { gap: standing, reach: 0, overlaps: false };
    if (departs(moving, still, way, Math.max(margin, bound)))
      return { gap: FAR, reach: undefined, overlaps: false };
    if (standing <= 0) return { gap: FAR, reach: undefined, overlaps: true };
    least = standing - bound;
    if (whole >= least) return { gap: FAR, reach: undefined, overlaps: false };
  }
  let [free, stopped] = [0, distance];
  while (stopped - free > (still.kind === 'field' ? FINE_PAST_FIELDS : FINE)) {
    const middle = (free + stopped) / 2;
    // A tube's march tells a cap a little less than it is.
    if (over(middle, least + bound, least) >= least) free = middle;
    else stopped = middle;
  }
  return { gap: whole, reach: free, overlaps: false };
}

/** Whether the motion slides along what it touches, or leaves it. */
function departs(moving: Movable, still: Shape, way: Vector, slack: number): boolean {
  if (moving.kind !== 'body') return false;
  if (still.kind === 'body') return leaves(moving.body, still.body, way, slack);
  if (still.kind !== 'half space') return false;
  const { halfSpace } = still;
  return (
    dot3(halfSpace.normal, way) >= -tolerance.sameDirection &&
    gapToHalfSpace(moving.body, halfSpace) >= -slack
  );
}

/** The shapes of a pair as they are judged: tubes without what is waived of them; undefined where all is. */
function shapesFor(mover: Piece, still: Piece): readonly [Movable, Shape] | undefined {
  const { shape } = mover;
  if (shape.kind === 'half space' || shape.kind === 'field') return undefined;
  if (mover.role === 'tool' && still.role === 'plate') return undefined;
  const [a, b] = [trimmed(mover, still), trimmed(still, mover)];
  if (a === undefined || b === undefined || a.kind === 'half space' || a.kind === 'field') return undefined;
  return [a, b];
}

/** A tube without the beginning that its own head waives, and without the end that is the collector's. */
function trimmed({ shape, tube }: Piece, other: Piece): Shape | undefined {
  if (shape.kind !== 'tube' || tube === undefined) return shape;
  if (other.sleeveOf === tube.primary) return undefined;
  const from = other.headOf.includes(tube.primary) ? tube.clearsHead : shape.span[0];
  const to = other.role === 'collector' ? tube.lastStraight : shape.span[1];
  const span: TubeSpan['span'] = [Math.min(from, to), to];
  return { ...shape, span };
}
