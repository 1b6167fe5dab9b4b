import { dot, left, minus, times, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { placeOn, tangentAt } from './arcs.js';
import { boundsOfCurve, type Bounds } from './bounds.js';
import { gapBetween, gapOfBoxes } from './least-gap.js';
import { type Loop, type Segment } from './segments.js';

/** The narrowest place of a plate, mm, and the two edges' places across it. */
export interface Neck {
  readonly width: number;
  readonly from: Point;
  readonly to: Point;
}

/** How squarely two edges must face each other across the metal to make a neck (cosine of about 8 degrees). */
const FACING = 0.99;

/**
 * The narrowest neck of a plate: the least distance between two places of its outline that face each other
 * through metal, both edges square to the line between them. A round end or a corner is none.
 * @param outline counter-clockwise, so that the metal lies to its left
 * @returns undefined for a plate without any, such as a disc
 */
export function leastNeck(outline: Loop): Neck | undefined {
  const boxes = outline.map((piece) => boundsOfCurve(piece));
  let best: Neck | undefined;
  outline.forEach((a, i) => {
    for (let j = i + 1; j < outline.length; j++) {
      const b = outline[j] as Segment;
      if (best !== undefined && gapOfBoxes(boxes[i] as Bounds, boxes[j] as Bounds) >= best.width) continue;
      const { gap, from, to } = gapBetween(a, b);
      if (gap <= tolerance.samePoint || (best !== undefined && gap >= best.width)) continue;
      const across = times(minus(to, from), 1 / gap);
      if (dot(inward(a, from), across) >= FACING && dot(inward(b, to), across) <= -FACING)
        best = { width: gap, from, to };
    }
  });
  return best;
}

const inward = (piece: Segment, at: Point): Point => left(tangentAt(piece, placeOn(piece, at)));
