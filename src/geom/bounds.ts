import { cosSin } from '../base/numbers.js';
import { minus, turned, type Point } from '../base/points.js';
import { turnFrom } from './arcs.js';
import { type Curve, type CurveLoop } from './segments.js';

/** The upright box that just holds a drawing, mm. */
export interface Bounds {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

const QUARTERS: readonly Point[] = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

/** The box of one piece, exact: arcs reach to their outermost points, not only to their ends. */
export function boundsOfCurve(curve: Curve): Bounds {
  const { from, to } = curve;
  let left = Math.min(from[0], to[0]);
  let right = Math.max(from[0], to[0]);
  let bottom = Math.min(from[1], to[1]);
  let top = Math.max(from[1], to[1]);
  if (curve.kind !== 'line') {
    for (const [x, y] of extremesOf(curve)) {
      if (x < left) left = x;
      if (x > right) right = x;
      if (y < bottom) bottom = y;
      if (y > top) top = y;
    }
  }
  return { left, bottom, right, top };
}

/** Where an arc or a piece of an ellipse runs level or upright. */
function extremesOf(curve: Exclude<Curve, { kind: 'line' }>): Point[] {
  const { centre, sweep } = curve;
  const found: Point[] = [];
  if (curve.kind === 'arc') {
    const start = minus(curve.from, centre);
    for (const [c, s] of QUARTERS) {
      if (Math.abs(turnFrom(start, [c, s], sweep)) > Math.abs(sweep)) continue;
      found.push([centre[0] + curve.radius * c, centre[1] + curve.radius * s]);
    }
    return found;
  }
  const [c, s] = cosSin(curve.turn);
  const { major, minor } = curve;
  // x = major cos t c - minor sin t s, y = major cos t s + minor sin t c: where each has its extremes.
  for (const angle of [Math.atan2(-minor * s, major * c), Math.atan2(minor * c, major * s)]) {
    for (const t of [angle, angle + Math.PI]) {
      if (Math.abs(turnFrom(cosSin(curve.start), cosSin(t), sweep)) > Math.abs(sweep)) continue;
      const [ct, st] = cosSin(t);
      const [x, y] = turned([major * ct, minor * st], curve.turn);
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
