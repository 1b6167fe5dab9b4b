import { copyOfLine, pointOn, STRIDE, type PackedLine } from '../../geom/packed-line.js';
import {
  keepsClearOfItself,
  lineThrough,
  scratchPoints,
  wayFrom,
  type Candidate,
  type Way,
} from './candidate.js';
import type { RouteProblem } from './problem.js';
import { keepsLimits, spareToObstacles, weldsOfLine } from './rules.js';
import { toLength } from './to-length.js';
import { wantedBy, type WantedBy } from './wanted.js';
import { lengthAt, readWay, roomAt, type PackedWays } from './ways.js';

/** Clearance beyond this (mm over what is asked) is not told apart. */
export const ENOUGH_SPARE = 12;

/** Routes must keep this (mm) more than asked when measured with the coarse floor of a library. */
const MARGIN = 0.05;

/**
 * Routes that nowhere differ by so much (mm) are twins. Of the fewest welds there are few routes and all count;
 * of the others there are thousands, and those kept are of more use the more they differ.
 */
const FEW = 4;
const MANY = 32;

/** How a library is made. */
export interface LibraryRules {
  /** Routes within so much (mm) of the length are brought to it. */
  readonly window: number;
  /** How many of each weld count are kept, for each port and slot. */
  readonly keep: number;
  /** Welds of a route that nothing can better. */
  readonly fewest: number;
}

/** A library to be made. */
export interface LibraryOrder extends LibraryRules {
  readonly start: number;
  readonly slot: number;
  readonly length: number;
  readonly pool: PackedWays;
  readonly wanted: WantedBy;
}

/** A way of the length asked, measured coarsely. */
interface Measured extends Way {
  readonly spare: number;
}

const points = scratchPoints();
const COARSELY = { floor: 3, stop: 0, cap: ENOUGH_SPARE };
const FINELY = { floor: 0.4, stop: 0, cap: ENOUGH_SPARE };

/**
 * Sound routes of exactly one length for one port and slot, out of all that are near it: brought to the
 * length, measured, the roomiest of each weld count kept, twins dropped.
 */
export function libraryAt(problem: RouteProblem, order: LibraryOrder): Candidate[] {
  const { start, slot, length, pool } = order;
  const wanted = wantedBy(order.wanted);
  const byWelds = new Map<number, Measured[]>();
  for (let o = 0; o < pool.length; o += roomAt(pool, o)) {
    if (Math.abs(lengthAt(pool, o) - length) > order.window) continue;
    const clrs = readWay(pool, o, points);
    if (!toLength(problem, start, slot, points, clrs, length)) continue;
    const line = lineThrough(points, clrs, clrs.length);
    if (!keepsLimits(problem, start, line)) continue;
    const welds = weldsOfLine(problem, start, line, clrs);
    if (!wanted(length, welds)) continue;
    const spare = spareToObstacles(problem, line, start, slot, COARSELY);
    if (spare < 0) continue;
    const measured = { ...wayFrom(problem, { start, slot }, points, clrs, line, welds), spare };
    const same = byWelds.get(welds);
    if (same) same.push(measured);
    else byWelds.set(welds, [measured]);
  }
  const kept: Candidate[] = [];
  for (const welds of [...byWelds.keys()].sort((a, b) => a - b))
    kept.push(...withoutTwins(byWelds.get(welds) ?? [], order.keep, welds <= order.fewest ? FEW : MANY));
  return kept.filter((route) => {
    if (!keepsClearOfItself(problem, start, route.line, route.clrs, 2)) return false;
    route.spare = spareToObstacles(problem, route.line, start, slot, FINELY);
    return route.spare >= MARGIN;
  });
}

/** The roomiest first, none nearer than the twins' distance to one kept before. */
function withoutTwins(routes: Measured[], keep: number, twins: number): Candidate[] {
  routes.sort((a, b) => b.spare - a.spare);
  const kept: Candidate[] = [];
  const seen: Float64Array[] = [];
  for (const route of routes) {
    if (kept.length >= keep) break;
    const bends = route.clrs.length;
    const line = lineThrough(route.points, route.clrs, bends);
    const marks = marksOf(line);
    if (seen.some((other) => allNear(marks, other, twins))) continue;
    kept.push({ ...route, bends, line: copyOfLine(line) });
    seen.push(marks);
  }
  return kept;
}

const MARKS = 6;
const here = new Float64Array(3);

/** Six points along a route, by which twins are known. */
function marksOf(line: PackedLine): Float64Array {
  const marks = new Float64Array(3 * MARKS);
  let piece = 0;
  for (let m = 0; m < MARKS; m++) {
    const station = line.length * (0.15 + 0.14 * m);
    while (
      piece < line.pieces - 1 &&
      station > (line.data[piece * STRIDE + 1] as number) + (line.data[piece * STRIDE + 2] as number)
    )
      piece++;
    pointOn(line.data, piece, station, here);
    marks.set(here, 3 * m);
  }
  return marks;
}

function allNear(a: Float64Array, b: Float64Array, within: number): boolean {
  for (let m = 0; m < a.length; m += 3) {
    const x = (a[m] as number) - (b[m] as number);
    const y = (a[m + 1] as number) - (b[m + 1] as number);
    const z = (a[m + 2] as number) - (b[m + 2] as number);
    if (x * x + y * y + z * z > within * within) return false;
  }
  return true;
}
