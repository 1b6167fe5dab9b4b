import type { Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { placeOn } from './arcs.js';
import type { Arc, Line, Segment } from './segments.js';

/** A place where two cuts meet, and where that is along each of them, in [0, 1]. */
export interface Crossing {
  readonly at: Point;
  readonly t: number;
  readonly u: number;
}

const near = tolerance.samePoint;

/**
 * Every place where two cuts meet: crossings, touches, ends of one that lie on the other.
 * Two curves that come within the same-point tolerance of each other without crossing touch, in one point.
 * Where they run along each other (same line, same circle), the ends of the common stretch are given.
 */
export function crossingsOf(a: Segment, b: Segment): Crossing[] {
  const found: Crossing[] = [];
  endOn(found, a.from, 0, placeOn(b, a.from));
  endOn(found, a.to, 1, placeOn(b, a.to));
  endOn(found, b.from, placeOn(a, b.from), 0);
  endOn(found, b.to, placeOn(a, b.to), 1);
  for (const at of meetingPoints(a, b)) {
    const t = placeOn(a, at, 2 * near);
    if (t === t) endOn(found, at, t, placeOn(b, at, 2 * near));
  }
  return found;
}

/** Notes a meeting, unless it is none (NaN) or the same as one noted before. */
function endOn(found: Crossing[], at: Point, t: number, u: number): void {
  if (t !== t || u !== u) return;
  for (const other of found) {
    if (Math.abs(other.at[0] - at[0]) <= near && Math.abs(other.at[1] - at[1]) <= near) return;
  }
  found.push({ at, t, u });
}

/** Where the whole line or circle of one meets that of the other. */
function meetingPoints(a: Segment, b: Segment): Point[] {
  if (a.kind === 'line') return b.kind === 'line' ? lineLine(a, b) : lineCircle(a, b);
  return b.kind === 'line' ? lineCircle(b, a) : circleCircle(a, b);
}

function lineLine(a: Line, b: Line): Point[] {
  const dx = a.to[0] - a.from[0];
  const dy = a.to[1] - a.from[1];
  const ex = b.to[0] - b.from[0];
  const ey = b.to[1] - b.from[1];
  const k = dx * ey - dy * ex;
  if (Math.abs(k) <= tolerance.sameDirection * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return [];
  const t = ((b.from[0] - a.from[0]) * ey - (b.from[1] - a.from[1]) * ex) / k;
  return [[a.from[0] + dx * t, a.from[1] + dy * t]];
}

function lineCircle(a: Line, b: Arc): Point[] {
  const length = Math.hypot(a.to[0] - a.from[0], a.to[1] - a.from[1]);
  const dx = (a.to[0] - a.from[0]) / length;
  const dy = (a.to[1] - a.from[1]) / length;
  const x = b.centre[0] - a.from[0];
  const y = b.centre[1] - a.from[1];
  const along = x * dx + y * dy;
  const off = Math.abs(x * dy - y * dx);
  if (off > b.radius + near) return [];
  if (off >= b.radius - near) return [[a.from[0] + dx * along, a.from[1] + dy * along]];
  const half = Math.sqrt((b.radius - off) * (b.radius + off));
  return [
    [a.from[0] + dx * (along - half), a.from[1] + dy * (along - half)],
    [a.from[0] + dx * (along + half), a.from[1] + dy * (along + half)],
  ];
}

function circleCircle(a: Arc, b: Arc): Point[] {
  const x = b.centre[0] - a.centre[0];
  const y = b.centre[1] - a.centre[1];
  const d = Math.hypot(x, y);
  const [r, q] = [a.radius, b.radius];
  if (d > r + q + near || d < Math.abs(r - q) - near || d <= near) return [];
  // The common chord stands square to the line of centres, `along` from a's centre.
  const along = (d + ((r - q) * (r + q)) / d) / 2;
  const touches = d >= r + q - near || d <= Math.abs(r - q) + near;
  const half = touches ? 0 : Math.sqrt(Math.max(0, (r - along) * (r + along)));
  if (half === 0) {
    const reach = (along < 0 ? -r : r) / d;
    return [[a.centre[0] + x * reach, a.centre[1] + y * reach]];
  }
  const [cx, cy] = [a.centre[0] + (x * along) / d, a.centre[1] + (y * along) / d];
  const [hx, hy] = [(-y * half) / d, (x * half) / d];
  return [
    [cx + hx, cy + hy],
    [cx - hx, cy - hy],
  ];
}
