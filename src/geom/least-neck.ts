import { cross, dot, left, minus, plus, size, times, turned, type Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { tangentAt, turnFrom } from './arcs.js';
import { turnAtJoint } from './convex.js';
import type { Line, Loop, Segment } from './segments.js';

/** The narrowest place of a plate, mm, and the two edges' places across it. */
export interface Neck {
  readonly width: number;
  readonly from: Point;
  readonly to: Point;
}

/**
 * A round part of an outline: the points centre + r u, for the directions u from `start` over `sweep`.
 * Concave ones have their metal outside the circle; a concave corner is one of radius 0.
 */
interface Round {
  readonly concave: boolean;
  readonly centre: Point;
  readonly radius: number;
  readonly start: Point;
  readonly sweep: number;
}

const near = tolerance.samePoint;

/**
 * The narrowest neck of a plate: the least width of metal between two places of its outline that face each other
 * squarely and from which it widens, or at least does not narrow, to both sides. Exact. Straight sides in parallel
 * make a neck; round ends, convex corners and sides that taper to an end make none.
 * Only pairs that can be least are looked at: parallel lines, a concave arc or corner against a line or another
 * concave one, and a concave one within a larger convex arc. A pair with air between it is never the least: the air
 * that reaches in has a concave edge of its own, nearer to both. Holes are not looked at.
 * Own derivation, tests/geom/least-neck.test.ts.
 * @param outline counter-clockwise, so that the metal lies to its left
 * @returns undefined for a plate without any, such as a disc
 */
export function leastNeck(outline: Loop): Neck | undefined {
  const lines = outline.filter((piece) => piece.kind === 'line');
  const rounds = outline.flatMap((piece, i) => roundsAt(piece, outline[(i + 1) % outline.length] ?? piece));
  let best: Neck | undefined;
  const offer = (found: Neck | undefined): void => {
    if (!found || found.width <= near || (best && found.width >= best.width)) return;
    best = found;
  };
  lines.forEach((a, i) => {
    for (const b of lines.slice(i + 1)) offer(betweenLines(a, b));
    for (const b of rounds) if (b.concave) offer(lineAndConcave(a, b));
  });
  rounds.forEach((a, i) => {
    if (!a.concave) return;
    rounds.forEach((b, j) => {
      if (!b.concave) offer(concaveInConvex(a, b));
      else if (j > i) offer(betweenConcave(a, b));
    });
  });
  return best;
}

/** The round part that a piece is, and the one that the corner after it makes. */
function roundsAt(piece: Segment, next: Segment): Round[] {
  const found: Round[] = [];
  if (piece.kind === 'arc') {
    const { centre, radius, sweep } = piece;
    const start = times(minus(piece.from, centre), 1 / radius);
    found.push({ concave: sweep < 0, centre, radius, start, sweep });
  }
  const turn = turnAtJoint(piece, next);
  if (turn < -near) {
    const start = left(tangentAt(piece, 1));
    found.push({ concave: true, centre: piece.to, radius: 0, start, sweep: turn });
  }
  return found;
}

const has = ({ start, sweep }: Round, u: Point): boolean => {
  const turn = Math.abs(turnFrom(start, u, sweep));
  return turn <= Math.abs(sweep) + near || turn >= 2 * Math.PI - near;
};
const at = ({ centre, radius }: Round, u: Point): Point => plus(centre, times(u, radius));

function betweenLines(a: Line, b: Line): Neck | undefined {
  const along = tangentAt(a, 0);
  const back = tangentAt(b, 0);
  if (Math.abs(cross(along, back)) > near || dot(along, back) > 0) return undefined;
  const across = left(along);
  const width = dot(minus(b.from, a.from), across);
  const start = Math.max(0, dot(minus(b.to, a.from), along));
  const end = Math.min(dot(minus(a.to, a.from), along), dot(minus(b.from, a.from), along));
  if (width <= 0 || start > end + near) return undefined;
  const from = plus(a.from, times(along, (start + end) / 2));
  return { width, from, to: plus(from, times(across, width)) };
}

function lineAndConcave(a: Line, b: Round): Neck | undefined {
  const along = tangentAt(a, 0);
  const across = left(along);
  const way = minus(b.centre, a.from);
  const width = dot(way, across) - b.radius;
  const foot = dot(way, along);
  if (width <= 0 || foot < -near || foot > size(minus(a.to, a.from)) + near) return undefined;
  const down = times(across, -1);
  return has(b, down) ? { width, from: plus(a.from, times(along, foot)), to: at(b, down) } : undefined;
}

function betweenConcave(a: Round, b: Round): Neck | undefined {
  const way = minus(b.centre, a.centre);
  const d = size(way);
  const width = d - a.radius - b.radius;
  if (width <= near) return undefined;
  const u = times(way, 1 / d);
  const v = times(u, -1);
  return has(a, u) && has(b, v) ? { width, from: at(a, u), to: at(b, v) } : undefined;
}

function concaveInConvex(a: Round, b: Round): Neck | undefined {
  const way = minus(a.centre, b.centre);
  const d = size(way);
  const width = b.radius - d - a.radius;
  if (width <= near) return undefined;
  // About one centre the width is the same all along: any direction they have in common will do.
  const ways = d > near ? [times(way, 1 / d)] : [turned(a.start, a.sweep / 2), turned(b.start, b.sweep / 2)];
  const ends = d > near ? [] : [a.start, turned(a.start, a.sweep), b.start, turned(b.start, b.sweep)];
  const u = [...ways, ...ends].find((each) => has(a, each) && has(b, each));
  return u && { width, from: at(a, u), to: at(b, u) };
}
