import { cosSin } from '../base/numbers.js';
import type { Point } from '../base/points.js';
import { tolerance } from '../base/tolerance.js';
import { arc, arcBetween, joinedUp, line } from './arcs.js';
import { circleLoop, movedLoop } from './loops.js';
import type { Loop, Segment } from './segments.js';

/*
 * Plain shapes, centred on the origin and counter-clockwise. Move them with `movedLoop`.
 * Sizes outside a shape's range are an error of the caller, who has told the user before.
 */

const near = tolerance.samePoint;

/**
 * A rectangle with its four corners rounded (mm).
 * @param width along x, above 0
 * @param height along y, above 0
 * @param corner radius, from 0 (sharp) to half the smaller side (round ends; a circle where both are equal)
 * @throws Error where the corner does not fit
 */
export function roundedRectangle(width: number, height: number, corner: number): Loop {
  const x = width / 2 - corner;
  const y = height / 2 - corner;
  need(width > 0 && height > 0, `a rectangle of ${String(width)} x ${String(height)}`);
  need(
    corner >= 0 && x > -near && y > -near,
    `a corner of ${String(corner)} in ${String(width)} x ${String(height)}`,
  );
  if (x <= near && y <= near) return circleLoop([0, 0], corner);
  if (y <= near) return obround(width, height);
  if (x <= near) return movedLoop(obround(height, width), Math.PI / 2, [0, 0]);
  const pieces: Segment[] = [];
  const centres: Point[] = [
    [x, -y],
    [x, y],
    [-x, y],
    [-x, -y],
  ];
  centres.forEach((centre, i) => {
    if (corner > near) pieces.push(arc(centre, corner, ((i - 1) * Math.PI) / 2, Math.PI / 2));
    const next = centres[(i + 1) % 4] ?? centre;
    const [c, s] = cosSin((i * Math.PI) / 2);
    pieces.push(
      line([centre[0] + corner * c, centre[1] + corner * s], [next[0] + corner * c, next[1] + corner * s]),
    );
  });
  return pieces;
}

/**
 * A slot with round ends, lying along x (mm): half circles of diameter `width`, `length` over all.
 * @param length not under the width; equal gives a circle
 */
export function obround(length: number, width: number): Loop {
  need(
    width > 0 && length > width - near,
    `an obround of length ${String(length)} and width ${String(width)}`,
  );
  const r = width / 2;
  const x = length / 2 - r;
  if (x <= near) return circleLoop([0, 0], r);
  return [
    line([-x, -r], [x, -r]),
    arcBetween([x, -r], [x, r], [x, 0], r, Math.PI),
    line([x, r], [-x, r]),
    arcBetween([-x, r], [-x, -r], [-x, 0], r, Math.PI),
  ];
}

/**
 * A D: one side straight with two rounded corners, the side across from it one round arc (mm).
 * The box over all is `width` along x by `height` along y, whichever side is flat.
 * Call breadth what lies along the flat and depth what lies across it. Where the depth is at least
 * breadth / 2 + corner, the round is a half circle of radius breadth / 2, carried on by straight sides.
 * Where it is less, the round is the larger arc that touches the top of the box and runs tangent into the
 * two corner arcs: with a = breadth / 2 - corner and h = depth - corner, its radius is
 * (a^2 + h^2 - corner^2) / (2 (h - corner)).
 * @param corner from 0 (sharp) to half the breadth, and under half the depth
 * @throws Error outside that range
 */
export function dShape(
  width: number,
  height: number,
  flat: 'top' | 'bottom' | 'left' | 'right',
  corner: number,
): Loop {
  const lying = flat === 'left' || flat === 'right';
  const turn = { bottom: 0, right: 1, top: 2, left: 3 }[flat] * (Math.PI / 2);
  return movedLoop(lying ? flatDown(height, width, corner) : flatDown(width, height, corner), turn, [0, 0]);
}

function flatDown(breadth: number, depth: number, corner: number): Loop {
  const a = breadth / 2 - corner;
  const h = depth - corner;
  need(
    breadth > 0 && corner >= 0 && a > -near,
    `a D ${String(breadth)} broad with corners of ${String(corner)}`,
  );
  need(h - corner > near, `a D ${String(depth)} deep with corners of ${String(corner)}`);
  const floor = -depth / 2;
  const straight = depth - breadth / 2 - corner;
  const round = straight >= 0 ? breadth / 2 : (a * a + h * h - corner * corner) / (2 * (h - corner));
  const roundCentre: Point = [0, floor + depth - round];
  const cornerCentre: Point = [a, floor + corner];
  // Direction from the round's centre to where it runs into the side or the right corner.
  const lift = straight >= 0 ? 0 : Math.atan2(cornerCentre[1] - roundCentre[1], a);
  const pieces: Segment[] = [];
  if (corner > near) pieces.push(arc(cornerCentre, corner, -Math.PI / 2, Math.PI / 2 + lift));
  if (straight > near) pieces.push(line([breadth / 2, floor + corner], [breadth / 2, roundCentre[1]]));
  pieces.push(arc(roundCentre, round, lift, Math.PI - 2 * lift));
  if (straight > near) pieces.push(line([-breadth / 2, roundCentre[1]], [-breadth / 2, floor + corner]));
  if (corner > near) pieces.push(arc([-a, floor + corner], corner, Math.PI - lift, Math.PI / 2 + lift));
  if (a > near) pieces.push(line([-a, floor], [a, floor]));
  return joinedUp(pieces);
}

function need(fits: boolean, what: string): asserts fits {
  if (!fits) throw new Error(`cannot draw ${what}`);
}
