import { cross, distance, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { arcBetween, lengthOf, mirrored, moved, pointAt, reversed } from './arcs.js';
import { boundsOfCurves, type Bounds } from './bounds.js';
import { crossingsOf } from './crossings.js';
import { nearestOn } from './nearest.js';
import type { Curve, CurveLoop, Loop, Segment } from './segments.js';

/** A circle as a loop: two half circles, counter-clockwise from its right (mm). */
export function circleLoop(centre: Point, radius: number): Loop {
  const right: Point = [centre[0] + radius, centre[1]];
  const left: Point = [centre[0] - radius, centre[1]];
  return [arcBetween(right, left, centre, radius, Math.PI), arcBetween(left, right, centre, radius, Math.PI)];
}

/**
 * Area enclosed by a closed run, mm^2, positive counter-clockwise. Green's theorem piece by piece:
 * half the cross product of the ends, and for a round piece the segment over its chord,
 * a b (sweep - sin sweep) / 2 (a = b = radius for an arc).
 */
export function areaOfCurves(loop: CurveLoop): number {
  let twice = 0;
  for (const piece of loop) {
    twice += cross(piece.from, piece.to);
    if (piece.kind === 'line') continue;
    const ab = piece.kind === 'arc' ? piece.radius * piece.radius : piece.major * piece.minor;
    twice += ab * (piece.sweep - Math.sin(piece.sweep));
  }
  return twice / 2;
}

/** Area enclosed by a loop, mm^2, exact; positive counter-clockwise. */
export const areaOf = (loop: Loop): number => areaOfCurves(loop);

/** Length of the cut round a loop, mm, exact. */
export const perimeterOf = (loop: Loop): number => loop.reduce((sum, piece) => sum + lengthOf(piece), 0);

/** The upright box that just holds a loop (mm), exact. */
export const boundsOf = (loop: Loop): Bounds => boundsOfCurves(loop);

/** A loop turned about the origin (rad, counter-clockwise), then shifted (mm). */
export const movedLoop = <C extends Curve>(loop: readonly C[], turn: number, shift: Point): readonly C[] =>
  loop.map((piece) => moved(piece, turn, shift));

/** A loop travelled the other way round. */
export const reversedLoop = <C extends Curve>(loop: readonly C[]): readonly C[] =>
  loop.map((piece) => reversed(piece)).reverse();

/** A loop seen in a mirror that stands upright on x = `at`, travelled so that it keeps its sense. */
export const mirroredLoop = <C extends Curve>(loop: readonly C[], at = 0): readonly C[] =>
  reversedLoop(loop.map((piece) => mirrored(piece, at)));

/**
 * How many times a closed run of lines and arcs goes round a point, counter-clockwise positive.
 * The polygon of its ends, then for each arc whether the point lies between arc and chord.
 * Right down to points on a chord; on the loop itself either answer may come.
 */
export function windingAt(loop: Loop, point: Point): number {
  const x = point[0];
  const y = point[1];
  let turns = 0;
  for (const piece of loop) {
    const ax = piece.from[0];
    const ay = piece.from[1];
    const bx = piece.to[0];
    const by = piece.to[1];
    const dy = by - ay;
    // Positive where the point lies left of the chord.
    const side = (bx - ax) * (y - ay) - (x - ax) * dy;
    if (ay <= y) {
      if (by > y && side > 0) turns++;
    } else if (by <= y && side < 0) turns--;
    if (piece.kind === 'line') continue;
    const { centre, radius, sweep } = piece;
    const rx = x - centre[0];
    const ry = y - centre[1];
    if (rx * rx + ry * ry >= radius * radius) continue;
    // A point on the chord goes to the side the count above gave it.
    const onRight = side === 0 ? (dy === 0 ? bx < ax : dy > 0) : side < 0;
    if (sweep > 0 ? onRight : !onRight) turns += sweep > 0 ? 1 : -1;
  }
  return turns;
}

/** Whether a point lies inside a loop. Within the same-point tolerance of the edge either answer may come. */
export const isInside = (loop: Loop, point: Point): boolean => windingAt(loop, point) !== 0;

/** How far a point is from the line of a loop (mm, never negative), and the nearest point of it. */
export function distanceTo(loop: Loop, point: Point): { readonly distance: number; readonly nearest: Point } {
  let least = Infinity;
  let nearest: Point = point;
  for (const piece of loop) {
    const here = nearestOn(piece, point);
    const d = distance(here, point);
    if (d < least) [least, nearest] = [d, here];
  }
  return { distance: least, nearest };
}

/** The largest gap between the end of a piece and the start of the next, mm: 0 where the loop is closed. */
export function gapOf(loop: CurveLoop): number {
  let gap = 0;
  loop.forEach((piece, i) => {
    const next = loop[(i + 1) % loop.length] ?? piece;
    gap = Math.max(gap, distance(piece.to, next.from));
  });
  return gap;
}

/** Where two loops meet: crossings, touches, and the ends of stretches they share. */
export function crossingsOfLoops(a: Loop, b: Loop): Point[] {
  const found: Point[] = [];
  for (const p of a) for (const q of b) found.push(...crossingsOf(p, q).map((c) => c.at));
  return apart(found);
}

/** Where a loop meets itself other than at the joints from one piece to the next; empty for a sound loop. */
export function selfCrossings(loop: Loop): Point[] {
  const found: Point[] = [];
  loop.forEach((p, i) => {
    for (let j = i + 1; j < loop.length; j++) {
      const q = loop[j] as Segment;
      const joints = [j === i + 1 && q.from, j - i === loop.length - 1 && p.from].filter(
        (at) => at !== false,
      );
      const met = crossingsOf(p, q).filter(({ at }) => joints.every((joint) => distance(joint, at) > SLACK));
      found.push(...met.map(({ at }) => at));
    }
  });
  return apart(found);
}

const SLACK = 4 * tolerance.samePoint;

const apart = (points: readonly Point[]): Point[] =>
  points.filter((p, i) => points.findIndex((q) => distance(p, q) <= SLACK) === i);

/** The point halfway round the first piece of a loop: a point that lies on it. */
export function pointOf(loop: Loop): Point {
  const [first] = loop;
  if (!first) throw new Error('a loop of no pieces has no points');
  return pointAt(first, 0.5);
}
