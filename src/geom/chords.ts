import type { Point } from '../base/points.js';
import { pointAt } from './arcs.js';
import type { Loop } from './segments.js';

/**
 * A loop as points on it, close enough that no chord strays from its arc by more than `sagitta` (mm).
 * For strokes, pictures and quick tests of room; never for a cut edge.
 */
export function chordsOf(loop: Loop, sagitta: number): Point[] {
  const points: Point[] = [];
  for (const piece of loop) {
    points.push(piece.from);
    if (piece.kind === 'line') continue;
    // sagitta = r (1 - cos(step / 2))
    const step = 2 * Math.acos(Math.max(0, 1 - sagitta / piece.radius));
    const count = Math.max(1, Math.ceil(Math.abs(piece.sweep) / step));
    for (let k = 1; k < count; k++) points.push(pointAt(piece, k / count));
  }
  return points;
}
