import { distance, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { boundsOfCurve, type Bounds } from './bounds.js';
import { crossingsOf } from './crossings.js';
import { nearestOn } from './nearest.js';
import type { Loop, Segment } from './segments.js';

/** A least distance (mm) and the two places it is between. */
export interface Gap {
  readonly gap: number;
  readonly from: Point;
  readonly to: Point;
}

/**
 * The least distance between two cuts, exact. It lies at an end of one of them, where they cross, or where
 * the normal of one meets the other square: for an arc that is on the line through its centre.
 */
export function gapBetween(a: Segment, b: Segment): Gap {
  const crossing = crossingsOf(a, b)[0];
  return crossing === undefined ? gapOfApart(a, b) : { gap: 0, from: crossing.at, to: crossing.at };
}

/** The same for two cuts that do not cross. */
function gapOfApart(a: Segment, b: Segment): Gap {
  let best: Gap = { gap: Infinity, from: a.from, to: b.from };
  const offer = (from: Point, to: Point): void => {
    const gap = distance(from, to);
    if (gap < best.gap) best = { gap, from, to };
  };
  for (const end of [a.from, a.to]) offer(end, nearestOn(b, end));
  for (const end of [b.from, b.to]) offer(nearestOn(a, end), end);
  if (a.kind === 'arc') {
    const to = nearestOn(b, a.centre);
    offer(nearestOn(a, to), to);
  }
  if (b.kind === 'arc') {
    const from = nearestOn(a, b.centre);
    offer(from, nearestOn(b, from));
  }
  return best;
}

/** Least distance between two upright boxes; 0 where they overlap. */
export function gapOfBoxes(a: Bounds, b: Bounds): number {
  const x = Math.max(0, a.left - b.right, b.left - a.right);
  const y = Math.max(0, a.bottom - b.top, b.bottom - a.top);
  return Math.hypot(x, y);
}

/**
 * The least distance between the edges of two loops, exact; 0 where they cross. Whether one lies inside the
 * other is for the caller to know: the gap is then the metal between a hole and the outline.
 */
export function leastGap(a: Loop, b: Loop): Gap {
  const boxes = b.map((piece) => boundsOfCurve(piece));
  let best: Gap | undefined;
  for (const piece of a) {
    const box = boundsOfCurve(piece);
    b.forEach((other, i) => {
      const least = gapOfBoxes(box, boxes[i] as Bounds);
      if (best !== undefined && least >= best.gap) return;
      const found = least > tolerance.samePoint ? gapOfApart(piece, other) : gapBetween(piece, other);
      if (best === undefined || found.gap < best.gap) best = found;
    });
  }
  if (best === undefined) throw new Error('a loop without pieces has no distance');
  return best;
}
