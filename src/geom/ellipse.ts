import { cosSin } from '../base/numbers.js';
import { plus, turned, unit, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { joinedUp } from './arcs.js';
import { fitArcs, type SmoothCurve } from './biarcs.js';
import { grownConvex } from './convex.js';
import { circleLoop } from './loops.js';
import type { CurveLoop, EllipseArc, Loop, Segment } from './segments.js';

/** How arcs may stand for a true curve. */
export interface FitRules {
  /** Largest gap between the curve and its arcs, mm; the table's `curveFit` where it is left out. */
  readonly within?: number;
  /** Keep the arcs wholly on one side of the true curve: `never inside` for an opening something must pass. */
  readonly side?: 'either' | 'never inside' | 'never outside';
}

/** A loop of arcs that stands for a true curve, and the largest gap between the two (mm). */
export interface FittedLoop {
  readonly loop: Loop;
  readonly deviation: number;
}

/**
 * A piece of an ellipse: semi-axes `major` >= `minor` (mm), major axis along `turn`, parameter from `start`
 * over the signed `sweep` (rad).
 */
export function ellipseArc(
  centre: Point,
  major: number,
  minor: number,
  turn: number,
  start: number,
  sweep: number,
): EllipseArc {
  const at = (t: number): Point => {
    const [c, s] = cosSin(t);
    return plus(centre, turned([major * c, minor * s], turn));
  };
  const [from, to] = [at(start), at(start + sweep)];
  return { kind: 'ellipse', from, to, centre, major, minor, turn, start, sweep };
}

/**
 * The exact ellipse `width` along x by `height` along y, about the origin (mm): two half ellipses,
 * or the two arcs of a circle where both are the same.
 */
export function ellipseCurves(width: number, height: number): CurveLoop {
  if (Math.abs(width - height) <= tolerance.samePoint) return circleLoop([0, 0], width / 2);
  const turn = width > height ? 0 : Math.PI / 2;
  const [major, minor] = [Math.max(width, height) / 2, Math.min(width, height) / 2];
  const half = (start: number): EllipseArc => ellipseArc([0, 0], major, minor, turn, start, Math.PI);
  return joinedUp([half(0), half(Math.PI)]);
}

/**
 * The same ellipse as tangent arcs that any table can cut: at least two to a quarter, more where the
 * tolerance asks for it. 42.4 mm seen at 10 degrees: 8 arcs, 0.0076 mm.
 */
export function ellipseLoop(width: number, height: number, rules: FitRules = {}): FittedLoop {
  return fittedLoop(ellipseCurves(width, height), rules);
}

/**
 * A convex counter-clockwise loop of lines, arcs and pieces of ellipses, with tangent arcs in place of the
 * ellipses. Where the arcs must keep to one side they are fitted twice as close and moved over.
 */
export function fittedLoop(
  exact: CurveLoop,
  { within = tolerance.curveFit, side = 'either' }: FitRules,
): FittedLoop {
  const asked = side === 'either' ? within : within / 2;
  let [inside, outside] = [0, 0];
  const pieces: Segment[] = [];
  for (const curve of exact) {
    if (curve.kind !== 'ellipse') {
      pieces.push(curve);
      continue;
    }
    const quarters = Math.max(1, Math.round((2 * Math.abs(curve.sweep)) / Math.PI));
    for (let i = 0; i < quarters; i++) {
      const from = curve.start + (curve.sweep * i) / quarters;
      const fit = fitArcs(wholeEllipse(curve), from, curve.start + (curve.sweep * (i + 1)) / quarters, asked);
      pieces.push(...fit.pieces);
      // The arcs run inside where the true curve strays to their right.
      inside = Math.max(inside, fit.toRight);
      outside = Math.max(outside, fit.toLeft);
    }
  }
  const loop = joinedUp(pieces);
  if (side === 'either') return { loop, deviation: Math.max(inside, outside) };
  const over = side === 'never inside' ? inside : -outside;
  return { loop: grownConvex(loop, over), deviation: inside + outside };
}

const wholeEllipse = ({ centre, major, minor, turn }: EllipseArc): SmoothCurve => ({
  pointAt(t) {
    const [c, s] = cosSin(t);
    return plus(centre, turned([major * c, minor * s], turn));
  },
  tangentAt(t) {
    const [c, s] = cosSin(t);
    return unit(turned([-major * s, minor * c], turn));
  },
});
