import { turnOf } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import {
  add,
  cross3,
  direction,
  distance3,
  dot3,
  length3,
  scale,
  squareTo,
  subtract,
  type Vector,
} from '../base/vectors.js';
import type { CentreLine, CentreLineRow } from './centre-line.js';

/** A tube as a bender's XYZ table has it: the points where its straights would meet, and each bend's radius. */
export interface IntersectionPoints {
  /** The start, one point a bend, the end: mm in the engine's frame. */
  readonly points: readonly Vector[];
  /** Centre-line radius at each inner point, mm. */
  readonly clrs: readonly number[];
}

/**
 * The XYZ points of a centre line: start, where the straights before and after each bend meet, end.
 * T = CLR tan(angle / 2) from the bend's beginning along the flow.
 * @throws RangeError at a bend of half a turn or more, whose straights never meet ahead of it
 */
export function intersectionPointsOf(line: CentreLine): IntersectionPoints {
  const points: Vector[] = [line.start.at];
  const clrs: number[] = [];
  for (const piece of line.pieces) {
    if (piece.kind !== 'bend') continue;
    if (piece.angle > Math.PI - tolerance.sameDirection)
      throw new RangeError('a bend of half a turn has no intersection point');
    points.push(add(piece.from, scale(piece.direction, piece.clr * Math.tan(piece.angle / 2))));
    clrs.push(piece.clr);
  }
  return { points: [...points, line.end.at], clrs };
}

/** The signed angle (rad) about `axis`, right hand, from one direction square to it to another. */
const turnAbout = (axis: Vector, from: Vector, to: Vector): number =>
  Math.atan2(dot3(cross3(from, to), axis), dot3(from, to));

/**
 * The rows of a tube through XYZ points: the way back from `intersectionPointsOf`.
 * A point in line with its neighbours is no bend and its two straights become one. Where the bends need more
 * room than the points leave them, a straight comes out below 0: the caller's measure of how much is missing.
 * @param clockReference what the first bend's clock is counted from; roughly square to the first straight
 * @returns undefined where two neighbouring points are the same, or the path doubles back on itself
 */
export function rowsThrough(
  { points, clrs }: IntersectionPoints,
  clockReference: Vector,
): readonly CentreLineRow[] | undefined {
  const rows: CentreLineRow[] = [];
  const [first, ...rest] = points;
  if (first === undefined || rest.length === 0) return undefined;
  let last = first;
  let heading: Vector | undefined;
  let reference: Vector | undefined;
  /** Straight gathered since the last bend's intersection point, less that bend's tangent. */
  let straight = 0;
  for (const [i, point] of rest.entries()) {
    if (distance3(last, point) < tolerance.samePoint) return undefined;
    const next = direction(subtract(point, last));
    if (heading !== undefined) {
      const turn = cross3(heading, next);
      const angle = Math.atan2(length3(turn), dot3(heading, next));
      if (angle > Math.PI - tolerance.sameDirection) return undefined;
      if (angle > tolerance.sameDirection) {
        const clr = clrs[i - 1] ?? 0;
        const tangent = clr * Math.tan(angle / 2);
        const from: Vector = direction(squareTo(reference ?? clockReference, heading));
        const toward: Vector = direction(squareTo(next, heading));
        rows.push(
          { straight: straight - tangent },
          { clr, angle, clock: turnOf(turnAbout(heading, from, toward)) },
        );
        straight = -tangent;
        reference = direction(squareTo(scale(heading, -1), next));
      }
    }
    straight += distance3(last, point);
    heading = next;
    last = point;
  }
  return [...rows, { straight }];
}
