import { cosSin } from '../base/numbers.js';
import { turned, type Point } from '../base/points.js';
import { reachesToward, turnFrom } from './arcs.js';
import type { Curve, CurveLoop, EllipseArc } from './segments.js';

/** The upright box that just holds a drawing, mm. */
export interface Bounds {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** The box of one piece, exact: arcs reach to their outermost points, not only to their ends. */
export function boundsOfCurve(curve: Curve): Bounds {
  const { from, to } = curve;
  let left = Math.min(from[0], to[0]);
  let right = Math.max(from[0], to[0]);
  let bottom = Math.min(from[1], to[1]);
  let top = Math.max(from[1], to[1]);
  if (curve.kind === 'arc') {
    const { centre, radius } = curve;
    if (reachesToward(curve, 1, 0)) right = Math.max(right, centre[0] + radius);
    if (reachesToward(curve, -1, 0)) left = Math.min(left, centre[0] - radius);
    if (reachesToward(curve, 0, 1)) top = Math.max(top, centre[1] + radius);
    if (reachesToward(curve, 0, -1)) bottom = Math.min(bottom, centre[1] - radius);
  } else if (curve.kind === 'ellipse') {
    for (const [x, y] of extremesOf(curve)) {
      left = Math.min(left, x);
      right = Math.max(right, x);
      bottom = Math.min(bottom, y);
      top = Math.max(top, y);
    }
  }
  return { left, bottom, right, top };
}

/** Where a piece of an ellipse runs level or upright. */
function extremesOf({ centre, major, minor, turn, start, sweep }: EllipseArc): Point[] {
  const found: Point[] = [];
  const [c, s] = cosSin(turn);
  // x = major cos t c - minor sin t s, y = major cos t s + minor sin t c: where each has its extremes.
  for (const angle of [Math.atan2(-minor * s, major * c), Math.atan2(minor * c, major * s)]) {
    for (const t of [angle, angle + Math.PI]) {
      if (Math.abs(turnFrom(cosSin(start), cosSin(t), sweep)) > Math.abs(sweep)) continue;
      const [ct, st] = cosSin(t);
      const [x, y] = turned([major * ct, minor * st], turn);
      found.push([centre[0] + x, centre[1] + y]);
    }
  }
  return found;
}

/** The upright box that just holds a closed run of lines, arcs and pieces of ellipses (mm), exact. */
export function boundsOfCurves(loop: CurveLoop): Bounds {
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const curve of loop) {
    const box = boundsOfCurve(curve);
    left = Math.min(left, box.left);
    bottom = Math.min(bottom, box.bottom);
    right = Math.max(right, box.right);
    top = Math.max(top, box.top);
  }
  return { left, bottom, right, top };
}
