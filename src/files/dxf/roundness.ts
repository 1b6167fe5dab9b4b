import { distance, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import type { Loop } from '../../geom/segments.js';

/** Centre and radius of a loop that is one full circle, however many arcs it is drawn with; else undefined. */
export function roundnessOf(loop: Loop): { readonly centre: Point; readonly radius: number } | undefined {
  const [first, ...others] = loop;
  if (first?.kind !== 'arc') return undefined;
  const alike = others.every(
    (edge) =>
      edge.kind === 'arc' &&
      Math.abs(edge.radius - first.radius) < tolerance.samePoint &&
      distance(edge.centre, first.centre) < tolerance.samePoint,
  );
  const turned = loop.reduce((sum, edge) => sum + (edge.kind === 'arc' ? edge.sweep : 0), 0);
  const whole = Math.abs(Math.abs(turned) - 2 * Math.PI) * first.radius < tolerance.samePoint;
  return alike && whole ? { centre: first.centre, radius: first.radius } : undefined;
}
