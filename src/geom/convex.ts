import { cross, dot, left, plus, times, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { arcBetween, curvatureOf, joinedUp, line, tangentAt } from './arcs.js';
import type { Loop, Segment } from './segments.js';

/**
 * The turn at the joint from one piece to the next, rad, positive to the left; 0 where they run on.
 * At a cusp (straight back) the way the two bend apart tells a crack in the metal, -pi, from a spike of it, pi.
 */
export function turnAtJoint(piece: Segment, next: Segment): number {
  const before = tangentAt(piece, 1);
  const after = tangentAt(next, 0);
  const turn = Math.atan2(cross(before, after), dot(before, after));
  if (Math.abs(turn) < Math.PI - tolerance.samePoint) return turn;
  return curvatureOf(piece) + curvatureOf(next) > 0 ? -Math.PI : Math.PI;
}

/** Whether a counter-clockwise loop never turns to the right: no concave arc and no concave corner. */
export function isConvex(loop: Loop): boolean {
  return loop.every((piece, i) => {
    if (piece.kind === 'arc' && piece.sweep < 0) return false;
    return turnAtJoint(piece, loop[(i + 1) % loop.length] ?? piece) > -tolerance.samePoint;
  });
}

/** A piece moved square to itself, to its left by `by` (mm). Undefined for an arc that shrinks to nothing. */
export function beside(piece: Segment, by: number): Segment | undefined {
  const from = plus(piece.from, times(left(tangentAt(piece, 0)), by));
  const to = plus(piece.to, times(left(tangentAt(piece, 1)), by));
  if (piece.kind === 'line') return line(from, to);
  const radius = piece.sweep > 0 ? piece.radius - by : piece.radius + by;
  return radius > tolerance.samePoint ? arcBetween(from, to, piece.centre, radius, piece.sweep) : undefined;
}

/** The arc round a corner, at the distance `by` (mm, to the left positive) from it. */
export function roundCorner(corner: Point, along: Point, turn: number, by: number): Segment {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const after: Point = [c * along[0] - s * along[1], s * along[0] + c * along[1]];
  const from = plus(corner, times(left(along), by));
  const to = plus(corner, times(left(after), by));
  return arcBetween(from, to, corner, Math.abs(by), turn);
}

/**
 * A convex counter-clockwise loop moved outward by g >= 0 (mm), exact: lines shift, arcs gain g in radius,
 * corners become arcs of radius g. With g < 0 it moves inward, for loops without corners and with every
 * radius above -g only. Area grows by perimeter g + pi g^2 (Steiner's formula).
 * @throws Error where an arc would shrink to nothing
 */
export function grownConvex(loop: Loop, g: number): Loop {
  if (g === 0) return loop;
  const grown: Segment[] = [];
  loop.forEach((piece, i) => {
    const moved = beside(piece, -g);
    if (!moved) throw new Error(`an arc of radius ${String(-g)} or less cannot move inward by that much`);
    grown.push(moved);
    const turn = turnAtJoint(piece, loop[(i + 1) % loop.length] ?? piece);
    if (turn * Math.abs(g) > tolerance.samePoint)
      grown.push(roundCorner(piece.to, tangentAt(piece, 1), turn, -g));
  });
  return joinedUp(grown);
}
