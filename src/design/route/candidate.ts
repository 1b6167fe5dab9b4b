import type { CentreLineRow } from '../../geom/centre-line.js';
import { copyOfLine, emptyLine, packThrough, type PackedLine } from '../../geom/packed-line.js';
import { keepsLimits, spareToItself, spareToObstacles, weldsOfLine } from './rules.js';
import { builtLengthOf, type RouteProblem } from './problem.js';

/** The most bends that a search ever gives a primary. */
export const MOST_BENDS = 6;

/** One way for one primary from a port to a slot, as light as it can be kept. */
export interface Way {
  /** Port and slot, by their places in the problem. */
  readonly start: number;
  readonly slot: number;
  /** Intersection points, x, y, z in turn: start, one a bend, end. */
  readonly points: Float64Array;
  readonly clrs: readonly number[];
  /** Of its centre line, what stands of it included, mm. */
  readonly length: number;
  /** Of this primary, from the rack. */
  readonly welds: number;
}

/** A way with its centre line, measured. */
export interface Candidate extends Way {
  readonly bends: number;
  readonly line: PackedLine;
  /** Its rows where they have been rounded; else they follow from the points. */
  readonly rows?: readonly CentreLineRow[];
  /** Least spare to obstacles, mm, as far as it has been measured. */
  spare: number;
}

/** Points of a route being tried, with room for the most bends. */
export const scratchPoints = (): Float64Array => new Float64Array(3 * (MOST_BENDS + 2));
const lines = Array.from({ length: MOST_BENDS + 1 }, (_, bends) => emptyLine(bends));

/** The line through points, in a place that the next call uses again: copy it to keep it. */
export function lineThrough(points: Float64Array, clrs: readonly number[], bends: number): PackedLine {
  const line = lines[bends];
  if (line === undefined) throw new RangeError(`${bends} bends are more than the search gives a primary`);
  packThrough(points, clrs, bends, line);
  return line;
}

/** A way from points: copied, and counted where that is not known. `line` is the line through them. */
export const wayFrom = (
  problem: RouteProblem,
  { start, slot }: { readonly start: number; readonly slot: number },
  points: Float64Array,
  clrs: readonly number[],
  line: PackedLine,
  welds = weldsOfLine(problem, start, line, clrs),
): Way => ({
  start,
  slot,
  points: points.slice(0, 3 * clrs.length + 6),
  clrs: [...clrs],
  length: builtLengthOf(problem, start) + line.length,
  welds,
});

/** A candidate from points: copied, counted, not yet measured. */
export function candidateFrom(
  problem: RouteProblem,
  ends: { readonly start: number; readonly slot: number },
  points: Float64Array,
  clrs: readonly number[],
): Candidate {
  const bends = clrs.length;
  const line = copyOfLine(lineThrough(points, clrs, bends));
  return { ...wayFrom(problem, ends, points, clrs, line), bends, line, spare: NaN };
}

/** Whether a line keeps clear of obstacles by at least `spare` mm, to within half the floor. */
export const keepsClear = (
  problem: RouteProblem,
  line: PackedLine,
  { start, slot }: { readonly start: number; readonly slot: number },
  floor: number,
  spare = 0,
): boolean => spareToObstacles(problem, line, start, slot, { floor, stop: spare, cap: spare }) >= spare;

/** Whether a line keeps clear of itself, to within the floor. */
export const keepsClearOfItself = (
  problem: RouteProblem,
  start: number,
  line: PackedLine,
  clrs: readonly number[],
  floor: number,
): boolean => spareToItself(problem, start, line, clrs, { floor, stop: 0, cap: 0 }) >= 0;

/** Whether a candidate is kept as given, or can be made and keeps clear of obstacles and itself; measured with the floor. */
export function isSound(problem: RouteProblem, candidate: Candidate, floor: number): boolean {
  if (problem.kept[candidate.start] !== undefined) return true;
  return (
    keepsLimits(problem, candidate.start, candidate.line) &&
    keepsClear(problem, candidate.line, candidate, floor) &&
    keepsClearOfItself(problem, candidate.start, candidate.line, candidate.clrs, floor)
  );
}

/** Writes the two fixed ends of a primary into points for so many bends. */
export function placeEnds(
  problem: RouteProblem,
  start: number,
  slot: number,
  bends: number,
  points: Float64Array,
): void {
  const [from, to] = [problem.starts[start], problem.slots[slot]];
  if (from === undefined || to === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  points.set(from.at, 0);
  points.set(to.at, 3 * bends + 3);
}

/** Places the first and last intersection points: `a` ahead of the port, `b` before the slot. */
export function placeArms(
  problem: RouteProblem,
  start: number,
  slot: number,
  bends: number,
  arms: { readonly a: number; readonly b: number },
  points: Float64Array,
): void {
  const [from, to] = [problem.starts[start], problem.slots[slot]];
  if (from === undefined || to === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  for (let i = 0; i < 3; i++) {
    points[3 + i] = (from.at[i] as number) + arms.a * (from.direction[i] as number);
    points[3 * bends + i] = (to.at[i] as number) - arms.b * (to.direction[i] as number);
  }
}
