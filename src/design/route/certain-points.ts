import { dot3, length3, squareTo, subtract, scale, type Vector } from '../../base/vectors.js';
import type { Cell } from './cells.js';
import type { RouteProblem } from './problem.js';

/** Where along a two-bend route a certain point stands. */
export type Where = 'first bend' | 'middle straight' | 'last bend';

/**
 * Told of points that every tube of a cell comes near: its axis passes within `moves` mm of the point.
 * @param station no tube of the cell has come this far (mm) before the point
 * @returns true to end
 */
export type OnPoint = (
  x: number,
  y: number,
  z: number,
  moves: number,
  where: Where,
  station: number,
) => boolean;

/** Where the middle straight's direction turns more than this (rad) in the cell, nothing certain is worth telling. */
const LOOSE = 1.2;
/** Where the way makes less than this sine with an axis, the bend's plane is not known. */
const FLAT = 0.02;
/** Points that move more (mm) prove nothing. */
const FAR = 120;
const LOOKS = 6;
const BEND_LOOKS = 3;

/** Tells points certain to lie near every tube of a cell; true where `on` has ended it. */
export function tellCertainPoints(
  problem: RouteProblem,
  start: number,
  slot: number,
  [r1, r2]: readonly [number, number],
  cell: Cell,
  on: OnPoint,
): boolean {
  if (!(cell.between > 1 && cell.turn < LOOSE)) return false;
  const { at: p, direction: d } = problem.starts[start] as RouteProblem['starts'][number];
  const { at: q, direction: e } = problem.slots[slot] as RouteProblem['slots'][number];
  const { a, b, half, angles, first, last, toward, between, leastBetween, cosines } = cell;
  const bent = first[0] + r1 * angles[0][0];
  // Middle straight: the part that no bend of the cell reaches. A point at a fixed share of the way between
  // the intersection points moves by no more than they do.
  const [u, v] = [
    (r1 * Math.tan(angles[0][1] / 2)) / Math.max(leastBetween, Number.MIN_VALUE),
    1 - (r2 * Math.tan(angles[1][1] / 2)) / Math.max(leastBetween, Number.MIN_VALUE),
  ];
  if (u <= v)
    for (let t = 0; t <= LOOKS; t++) {
      const f = between * (u + ((v - u) * t) / LOOKS);
      const x = p[0] + a * d[0] + f * toward[0];
      const y = p[1] + a * d[1] + f * toward[1];
      const z = p[2] + a * d[2] + f * toward[2];
      if (on(x, y, z, half, 'middle straight', bent)) return true;
    }
  const bend = (
    origin: Vector,
    axis: Vector,
    other: Vector,
    along: Vector,
    cosine: number,
    radius: number,
    arm: number,
    straight: readonly [number, number],
    angle: readonly [number, number],
    where: Where,
  ): boolean => {
    const sine = Math.sqrt(Math.max(0, 1 - cosine * cosine));
    if (sine <= FLAT) return false;
    // Unit, square to the axis, in the plane of the bend.
    const across = scale(subtract(along, scale(axis, cosine)), 1 / sine);
    const middle = Math.min(Math.max(Math.acos(cosine), angle[0]), angle[1]);
    const s = arm - radius * Math.tan(middle / 2);
    const shift = Math.max(straight[1] - s, s - straight[0]);
    const swing = Math.max(angle[1] - middle, middle - angle[0]);
    // Only the other intersection point's move turns the bend's plane about the axis.
    const side = squareTo(other, axis);
    const inPlane = dot3(side, across);
    const outOfPlane = Math.sqrt(Math.max(0, length3(side) ** 2 - inPlane * inPlane));
    const room = between * sine - half * Math.abs(inPlane);
    const tilt = room > 0 ? Math.atan2(half * outOfPlane, room) : Math.PI;
    for (let t = 1; t <= BEND_LOOKS; t++) {
      const f = t / BEND_LOOKS;
      const moves =
        shift +
        radius * f * swing +
        radius * (1 - Math.cos(Math.min(Math.PI, f * angle[1]))) * 2 * Math.sin(tilt / 2);
      if (moves > FAR) break;
      const forward = s + radius * Math.sin(f * middle);
      const aside = radius * (1 - Math.cos(f * middle));
      const station = where === 'first bend' ? straight[0] + f * radius * angle[0] : bent;
      if (
        on(
          origin[0] + forward * axis[0] + aside * across[0],
          origin[1] + forward * axis[1] + aside * across[1],
          origin[2] + forward * axis[2] + aside * across[2],
          moves,
          where,
          station,
        )
      )
        return true;
    }
    return false;
  };
  return (
    bend(p, d, e, toward, cosines[0], r1, a, first, angles[0], 'first bend') ||
    bend(q, scale(e, -1), d, scale(toward, -1), cosines[1], r2, b, last, angles[1], 'last bend')
  );
}
