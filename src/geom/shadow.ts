import { left, plus, times, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import type { Vector } from '../base/vectors.js';
import { arcBetween, line } from './arcs.js';
import { ellipseArc, fittedLoop, type FitRules, type FittedLoop } from './ellipse.js';
import { circleLoop } from './loops.js';
import type { Curve, CurveLoop } from './segments.js';

/** A round bar or tube that goes through a flat plate, perhaps at a lean. */
export interface LeaningCylinder {
  /** Where its axis pierces the plane z = zAt. */
  readonly at: Point;
  readonly zAt: number;
  /** Unit direction of the axis; it must not lie in the plane. */
  readonly direction: Vector;
  readonly diameter: number;
  /** The plate's two faces, z = from and z = to, in either order. */
  readonly from: number;
  readonly to: number;
}

export interface Shadow extends FittedLoop {
  /** The true outline, for the solid. */
  readonly exact: CurveLoop;
  /** Along the lean: D / cos a + t tan a. Square to it the width is D. */
  readonly length: number;
}

/**
 * The hole that a square cut through a plate must have for a leaning cylinder to pass: the outline of all the
 * ellipses in which the cylinder meets the plate's levels. Two half ellipses (D / 2 by D / (2 cos a)) joined by
 * two lines t tan a long; a plain ellipse where the plate has no thickness; a circle where nothing leans.
 * Own derivation, tests/geom/shadow.test.ts.
 * @throws Error where the axis lies in the plane
 */
export function shadowOf(cylinder: LeaningCylinder, rules: FitRules = {}): Shadow {
  const { at, zAt, direction, diameter, from, to } = cylinder;
  const [dx, dy, dz] = direction;
  if (Math.abs(dz) <= tolerance.sameDirection)
    throw new Error('a cylinder lying in the plate has no hole through it');
  const slope: Point = [dx / dz, dy / dz];
  const steep = Math.hypot(slope[0], slope[1]);
  const near = plus(at, times(slope, from - zAt));
  const far = plus(at, times(slope, to - zAt));
  const major = (diameter / 2) * Math.hypot(1, steep);
  const shift = Math.abs(to - from) * steep;
  const length = 2 * major + shift;
  if (major - diameter / 2 <= tolerance.samePoint && shift <= tolerance.samePoint) {
    const round = circleLoop(near, diameter / 2);
    return { exact: round, loop: round, deviation: 0, length };
  }
  const lean = times(slope, 1 / steep);
  const ahead = to >= from;
  const exact = hull(ahead ? near : far, ahead ? far : near, lean, major, diameter / 2, shift);
  return { exact, ...fittedLoop(exact, rules), length };
}

/** Two half ellipses facing outward along the lean, and the lines between them. */
function hull(tail: Point, head: Point, lean: Point, major: number, minor: number, shift: number): CurveLoop {
  const turn = Math.atan2(lean[1], lean[0]);
  const side = times(left(lean), minor);
  const [right, over] = [times(side, -1), side];
  const half = (centre: Point, start: number, from: Point, to: Point): Curve =>
    major - minor <= tolerance.samePoint
      ? arcBetween(from, to, centre, minor, Math.PI)
      : { ...ellipseArc(centre, major, minor, turn, start, Math.PI), from, to };
  if (shift <= tolerance.samePoint) {
    const [a, b] = [plus(tail, right), plus(tail, over)];
    return [half(tail, -Math.PI / 2, a, b), half(tail, Math.PI / 2, b, a)];
  }
  const corners = [plus(tail, right), plus(head, right), plus(head, over), plus(tail, over)] as const;
  return [
    line(corners[0], corners[1]),
    half(head, -Math.PI / 2, corners[1], corners[2]),
    line(corners[2], corners[3]),
    half(tail, Math.PI / 2, corners[3], corners[0]),
  ];
}
