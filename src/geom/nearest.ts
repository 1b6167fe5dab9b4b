import type { Point } from '../base/points.js';
import { reachesToward } from './arcs.js';
import type { Segment } from './segments.js';

/** The point of a cut that is nearest to a given one, exact. From an arc's own centre all are alike: its start. */
export function nearestOn(segment: Segment, point: Point): Point {
  const x = point[0];
  const y = point[1];
  const { from, to } = segment;
  if (segment.kind === 'line') {
    const dx = to[0] - from[0];
    const dy = to[1] - from[1];
    const t = ((x - from[0]) * dx + (y - from[1]) * dy) / (dx * dx + dy * dy);
    if (!(t > 0)) return from;
    return t >= 1 ? to : [from[0] + dx * t, from[1] + dy * t];
  }
  const { centre, radius } = segment;
  const outX = x - centre[0];
  const outY = y - centre[1];
  const size = Math.sqrt(outX * outX + outY * outY);
  if (size === 0) return from;
  if (reachesToward(segment, outX, outY)) {
    return [centre[0] + (outX * radius) / size, centre[1] + (outY * radius) / size];
  }
  return squared(x - from[0], y - from[1]) <= squared(x - to[0], y - to[1]) ? from : to;
}

const squared = (x: number, y: number): number => x * x + y * y;
