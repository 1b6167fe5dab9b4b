import { randomFrom, type Random } from '../../base/random.js';
import { straightOf } from '../../geom/packed-line.js';
import {
  keepsClear,
  lineThrough,
  placeArms,
  placeEnds,
  scratchPoints,
  wayFrom,
  type Way,
} from './candidate.js';
import { builtLengthOf, type RouteProblem } from './problem.js';
import { keepsLimits, weldsOfLine } from './rules.js';
import { toLength } from './to-length.js';
import type { Wanted } from './wanted.js';

const points = scratchPoints();

/** A number from the normal distribution, mean 0, deviation 1 (Box and Muller). */
export const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(random.next() + Number.MIN_VALUE)) * Math.cos(2 * Math.PI * random.next());

/** How an effort of sampling goes. */
export interface Sampling {
  readonly bends: number;
  readonly tries: number;
  readonly seed: number;
  /** It ends early once so many are kept. */
  readonly enough: number;
}

/** Draws that miss the window by no more than this (mm) are brought to its nearer end. */
const NEARBY = 60;
/** Coarse floor (mm) of the clearance march while sampling. */
const COARSE = 3;

/**
 * Routes of three bends or more by seeded trial: inner intersection points in the ellipsoid of which no
 * route of the window can leave, the end straights drawn mostly within what legs cover, and the arms to match.
 * Half of the tries change a route already kept.
 */
export function findMoreBends(
  problem: RouteProblem,
  start: number,
  slot: number,
  { bends, tries, seed, enough }: Sampling,
  wanted: Wanted,
  keep: (way: Way) => void,
): void {
  const { limits, stock } = problem;
  const random = randomFrom(seed);
  const [from, to] = [problem.starts[start], problem.slots[slot]];
  if (from === undefined || to === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  const before = builtLengthOf(problem, start);
  const kept: Way[] = [];
  const clrOf = (): number => random.pick(stock).clr;
  placeEnds(problem, start, slot, bends, points);
  for (let t = 0; t < tries && kept.length < enough; t++) {
    let clrs: number[];
    let first: number;
    let last: number;
    if (t % 2 === 1 && kept.length > 0) {
      const parent = random.pick(kept);
      const size = random.chance(0.5) ? 10 : 40;
      clrs = [...parent.clrs];
      const own = lineThrough(parent.points, clrs, bends);
      for (let m = 6; m < 3 * bends; m++) points[m] = (parent.points[m] as number) + normal(random) * size;
      first = Math.max(from.stub, straightOf(own, 0) + normal(random) * size);
      last = Math.max(limits.lastStraight, straightOf(own, bends) + normal(random) * size);
      if (random.chance(0.3)) clrs[random.whole(0, bends - 1)] = clrOf();
    } else {
      clrs = Array.from({ length: bends }, clrOf);
      first = from.stub + random.next() * (random.chance(0.8) ? 80 : 400);
      last = limits.lastStraight + random.next() * (random.chance(0.75) ? 60 : 400);
      for (let m = 0; m < bends - 2; m++)
        inEllipsoid(from.at, to.at, limits.window.to - before, random, 6 + 3 * m);
    }
    if (!matchArms(problem, start, slot, clrs, first, last)) continue;
    let line = lineThrough(points, clrs, bends);
    // A window may be as narrow as one length, which no draw would ever meet: what is near is brought to it.
    const drawn = before + line.length;
    const length = Math.min(Math.max(drawn, limits.window.from), limits.window.to);
    if (!(Math.abs(drawn - length) <= NEARBY)) continue;
    if (!wanted(length, bends + 1)) continue;
    if (drawn !== length) {
      if (!toLength(problem, start, slot, points, clrs, length)) continue;
      line = lineThrough(points, clrs, bends);
    }
    if (!keepsLimits(problem, start, line)) continue;
    const welds = weldsOfLine(problem, start, line, clrs);
    if (!wanted(length, welds)) continue;
    if (!keepsClear(problem, line, { start, slot }, COARSE)) continue;
    const way = wayFrom(problem, { start, slot }, points, clrs, line, welds);
    kept.push(way);
    keep(way);
  }
}

type Place = readonly [number, number, number];

/** A point whose distances to p and q add up to no more than `most`, written into the points at `o`. */
function inEllipsoid(p: Place, q: Place, most: number, random: Random, o: number): void {
  const [dx, dy, dz] = [q[0] - p[0], q[1] - p[1], q[2] - p[2]];
  const apart = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const long = most / 2;
  const thick = Math.sqrt(Math.max(100, most * most - apart * apart)) / 2;
  let [x, y, z] = [1, 1, 1];
  while (x * x + y * y + z * z > 1)
    [x, y, z] = [random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)];
  const [ux, uy, uz] = [dx / apart, dy / apart, dz / apart];
  const level = Math.hypot(ux, uy);
  const [vx, vy] = level < 0.001 ? [1, 0] : [-uy / level, ux / level];
  const [wx, wy, wz] = [-uz * vy, uz * vx, ux * vy - uy * vx];
  points[o] = (p[0] + q[0]) / 2 + long * x * ux + thick * (y * vx + z * wx);
  points[o + 1] = (p[1] + q[1]) / 2 + long * x * uy + thick * (y * vy + z * wy);
  points[o + 2] = (p[2] + q[2]) / 2 + long * x * uz + thick * z * wz;
}

/** Places the first and last intersection points so that the end straights come out as asked, nearly. */
function matchArms(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly number[],
  first: number,
  last: number,
): boolean {
  const bends = clrs.length;
  const from = problem.starts[start] as RouteProblem['starts'][number];
  const to = problem.slots[slot] as RouteProblem['slots'][number];
  const a = armFor(from.at, from.direction, 1, 6, clrs[0] as number, first);
  if (Number.isNaN(a)) return false;
  placeArms(problem, start, slot, bends, { a, b: last }, points);
  const b = armFor(to.at, to.direction, -1, 3 * (bends - 1), clrs[bends - 1] as number, last);
  if (Number.isNaN(b)) return false;
  placeArms(problem, start, slot, bends, { a, b }, points);
  return true;
}

/** The arm that leaves a straight as asked, by a few steps of a fixed point; NaN where the bend would double back. */
function armFor(p: Place, d: Place, way: 1 | -1, o: number, clr: number, straight: number): number {
  let arm = straight + clr * 0.7;
  for (let step = 0; step < 5; step++) {
    const x = (points[o] as number) - p[0] - way * arm * d[0];
    const y = (points[o + 1] as number) - p[1] - way * arm * d[1];
    const z = (points[o + 2] as number) - p[2] - way * arm * d[2];
    const c = (way * (x * d[0] + y * d[1] + z * d[2])) / Math.sqrt(x * x + y * y + z * z);
    if (!(c >= -0.95)) return NaN;
    arm = straight + clr * Math.sqrt(Math.max(0, (1 - c) / (1 + c)));
  }
  return arm;
}
