import type { Point } from '../base/points.js';
import { tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import { tangentAt } from './arcs.js';
import { boundsOfCurve, type Bounds } from './bounds.js';
import { chain } from './chain.js';
import { beside, grownConvex, isConvex, roundCorner, turnAtJoint } from './convex.js';
import { edgesOf, sharedEdges, type Edge } from './edges.js';
import { areaOf } from './loops.js';
import { nearestOn } from './nearest.js';
import type { Loop, Region, Segment } from './segments.js';
import { orSmaller } from './smaller.js';

const near = tolerance.samePoint;

/**
 * A loop moved outward by g (mm), or inward where g < 0, corners rounded as a rolling disc of radius |g| leaves
 * them. Exact: lines shift, arcs gain g in radius. What closes up on the way out is filled.
 * @throws Error where nothing, or more than one piece, is left on the way in
 */
export function grow(loop: Loop, g: number): Loop {
  if (g === 0) return loop;
  const smooth =
    g > 0 || loop.every((piece, i) => staysSmooth(piece, loop[(i + 1) % loop.length] ?? piece, g));
  if (smooth && isConvex(loop)) return grownConvex(loop, g);
  const outer = offset([loop], g).filter((other) => areaOf(other) > 0);
  const [only] = outer;
  if (!only || outer.length > 1) {
    throw new Error(`moved by ${tidy(g)} mm the loop comes out in ${String(outer.length)} pieces`);
  }
  return only;
}

const staysSmooth = (piece: Segment, next: Segment, g: number): boolean =>
  (piece.kind === 'line' || piece.radius > near - g) && Math.abs(turnAtJoint(piece, next) * g) <= near;

/**
 * A region grown by `by` all round (mm), or shrunk where it is negative: all points within `by` of it, or all
 * points of it farther than -by from its edge. Corners that open that way become arcs about the corner.
 * Every piece is set off by itself; all are cut where they meet, and what lies nearer than |by| to the old edge goes.
 * @throws Error naming the place, where the new edge cannot be closed
 */
export const offset = (region: Region, by: number): Region =>
  by === 0 ? region : orSmaller([region], ([drawn = []], scale) => setOffAndCleaned(drawn, by * scale));

function setOffAndCleaned(region: Region, by: number): Region {
  const source = region.flat();
  const boxes = source.map((piece) => boundsOfCurve(piece));
  const reach = Math.abs(by);
  const kept: Edge[] = [];
  for (const { edge, all } of sharedEdges(edgesOf(setOff(region, -by), () => true))) {
    // Two pieces back to back bound no metal between them.
    const forward = all.reduce((sum, one) => sum + (one.forward ? 1 : -1), 0);
    if (forward === 0) continue;
    if (clearanceOf(edge.middle, source, boxes, reach) >= reach - near) kept.push(edge);
  }
  return chain(kept);
}

/** Every piece moved to its left by `by` (mm, to the right where negative), and arcs round the corners that open. */
function setOff(region: Region, by: number): Segment[] {
  const raw: Segment[] = [];
  for (const loop of region) {
    loop.forEach((piece, i) => {
      const moved = beside(piece, by);
      if (moved) raw.push(moved);
      const turn = turnAtJoint(piece, loop[(i + 1) % loop.length] ?? piece);
      if (turn * by < -near / 2) raw.push(roundCorner(piece.to, tangentAt(piece, 1), turn, by));
    });
  }
  return raw;
}

/** How far a point is from the old edge, as far as it matters: at most `reach` (mm). */
function clearanceOf(
  point: Point,
  source: readonly Segment[],
  boxes: readonly Bounds[],
  reach: number,
): number {
  const x = point[0];
  const y = point[1];
  let least = reach;
  for (let i = 0; i < source.length; i++) {
    const box = boxes[i] as Bounds;
    if (x <= box.left - least || x >= box.right + least || y <= box.bottom - least || y >= box.top + least)
      continue;
    const there = nearestOn(source[i] as Segment, point);
    least = Math.min(least, Math.hypot(there[0] - x, there[1] - y));
    if (least < reach - near) return least;
  }
  return least;
}
