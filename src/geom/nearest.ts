import { minus, type Point } from '../base/points.js';
import { turnFrom } from './arcs.js';
import { type Segment } from './segments.js';

/** The point of a cut that is nearest to a given one, exact. From an arc's own centre all are alike: its start. */
export function nearestOn(segment: Segment, [x, y]: Point): Point {
  const { from, to } = segment;
  if (segment.kind === 'line') {
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const t = ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy);
    if (!(t > 0)) return from;
    if (t >= 1) return to;
    return [from[0] + dx * t, from[1] + dy * t];
  }
  const { centre, radius, sweep } = segment;
  const out: Point = [x - centre[0], y - centre[1]];
  const size = Math.hypot(out[0], out[1]);
  if (size === 0) return from;
  if (Math.abs(turnFrom(minus(from, centre), out, sweep)) <= Math.abs(sweep)) {
    return [centre[0] + (out[0] * radius) / size, centre[1] + (out[1] * radius) / size];
  }
  const toFrom = (x - from[0]) ** 2 + (y - from[1]) ** 2;
  const toTo = (x - to[0]) ** 2 + (y - to[1]) ** 2;
  return toFrom <= toTo ? from : to;
}
