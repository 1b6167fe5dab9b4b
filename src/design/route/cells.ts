import type { ArmReach } from './arm-reach.js';
import { builtLengthOf, type RouteProblem } from './problem.js';

/** A range of values. */
export type Range = readonly [least: number, most: number];

/**
 * All two-bend routes of one port, slot and pair of radii whose first intersection point stands a +- half
 * ahead of the port and whose second b +- half before the slot: what is certain about every one of them.
 * mm and rad.
 */
export interface Cell {
  readonly a: number;
  readonly b: number;
  readonly half: number;
  /** Of the two bends. */
  readonly angles: readonly [Range, Range];
  readonly first: Range;
  readonly middle: Range;
  readonly last: Range;
  readonly length: Range;
  /** At the middle of the cell: from the first intersection point to the second, unit, and how far. */
  readonly toward: readonly [number, number, number];
  readonly between: number;
  /** Least distance between the intersection points over the cell. */
  readonly leastBetween: number;
  /** Cosines of the angle between `toward` and the port's and the slot's axis. */
  readonly cosines: readonly [number, number];
  /** How far, at most, the direction of the middle straight turns within the cell, rad. */
  readonly turn: number;
}

/**
 * What is certain about the routes of a cell, or undefined where an interval leaves its limits: then no route
 * of the cell can be made, whatever stands round it.
 * Within the cell both intersection points move along their axes by `half`; so the way between them changes
 * by half (|c1| + |c2|) along itself and half (s1 + s2) across, with c and s the cosine and sine of its angle
 * to the axes. Angles, tangents, straights and length follow by interval arithmetic.
 */
export function cellOf(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  reach: ArmReach,
  at: { readonly a: number; readonly b: number; readonly half: number },
): Cell | undefined {
  const { limits } = problem;
  const { a, b, half } = at;
  const { at: p, direction: d, stub } = problem.starts[start] as RouteProblem['starts'][number];
  const { at: q, direction: e } = problem.slots[slot] as RouteProblem['slots'][number];
  const before = builtLengthOf(problem, start);
  const x = q[0] - b * e[0] - p[0] - a * d[0];
  const y = q[1] - b * e[1] - p[1] - a * d[1];
  const z = q[2] - b * e[2] - p[2] - a * d[2];
  const between = Math.max(Math.sqrt(x * x + y * y + z * z), Number.MIN_VALUE);
  const [ux, uy, uz] = [x / between, y / between, z / between];
  const c1 = Math.max(-1, Math.min(1, ux * d[0] + uy * d[1] + uz * d[2]));
  const c2 = Math.max(-1, Math.min(1, ux * e[0] + uy * e[1] + uz * e[2]));
  const across = half * (Math.sqrt(1 - c1 * c1) + Math.sqrt(1 - c2 * c2));
  const along = half * (Math.abs(c1) + Math.abs(c2));
  const turn = between > along ? Math.atan2(across, between - along) : Math.PI;
  const [t1, t2] = [Math.acos(c1), Math.acos(c2)];
  const { leastAngle, largestAngle } = limits;
  const lo1 = Math.max(t1 - turn, leastAngle);
  const hi1 = Math.min(t1 + turn, largestAngle);
  const lo2 = Math.max(t2 - turn, leastAngle);
  const hi2 = Math.min(t2 + turn, largestAngle);
  if (lo1 > hi1 || lo2 > hi2) return undefined;
  const [r1, r2] = clrs;
  const [t1lo, t1hi] = [r1 * Math.tan(lo1 / 2), r1 * Math.tan(hi1 / 2)];
  const [t2lo, t2hi] = [r2 * Math.tan(lo2 / 2), r2 * Math.tan(hi2 / 2)];
  const nearest = Math.max(0, between - along);
  const furthest = Math.sqrt((between + along) ** 2 + across * across);
  const first: Range = [a - half - t1hi, a + half - t1lo];
  const last: Range = [b - half - t2hi, b + half - t2lo];
  const middle: Range = [nearest - t1hi - t2hi, furthest - t1lo - t2lo];
  if (first[1] < stub || last[1] < limits.lastStraight || middle[1] < limits.between) return undefined;
  if (first[0] > reach.first || last[0] > reach.last) return undefined;
  const length: Range = [
    before + a + b - 2 * half + nearest - (2 * t1hi - r1 * hi1) - (2 * t2hi - r2 * hi2),
    before + a + b + 2 * half + furthest - (2 * t1lo - r1 * lo1) - (2 * t2lo - r2 * lo2),
  ];
  if (length[0] > limits.window.to || length[1] < limits.window.from) return undefined;
  return {
    a,
    b,
    half,
    angles: [
      [lo1, hi1],
      [lo2, hi2],
    ],
    first,
    middle,
    last,
    length,
    toward: [ux, uy, uz],
    between,
    leastBetween: nearest,
    cosines: [c1, c2],
    turn,
  };
}

/** The four quarters of a cell. */
export const quartersOf = ({
  a,
  b,
  half,
}: {
  readonly a: number;
  readonly b: number;
  readonly half: number;
}): { readonly a: number; readonly b: number; readonly half: number }[] => {
  const h = half / 2;
  return [
    { a: a - h, b: b - h, half: h },
    { a: a - h, b: b + h, half: h },
    { a: a + h, b: b - h, half: h },
    { a: a + h, b: b + h, half: h },
  ];
};
