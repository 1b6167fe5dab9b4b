import type { RouteProblem } from './problem.js';
import type { Cell, Range } from './cells.js';
import { tellCertainPoints } from './certain-points.js';

/** Where on a primary something certain stands: only ends side by side have another distance asked. */
const ELSEWHERE = 0;
const LAST_BEND = 1;
const LAST_STRAIGHT = 2;

/** What is certain about every tube of a cell, for asking whether all of them meet all of another cell's. */
export interface CellBody {
  readonly length: Range;
  /** x, y, z, how far every tube's axis passes from it at most (mm), where it stands. */
  readonly points: Float64Array;
  /** Two ends, how far at most each of its points moves over the cell (mm), where it stands. */
  readonly spans: Float64Array;
}

/** Points this far apart (mm) stand for straights that no route of the cell is without. */
const SPACING = 15;
/** Points that move more (mm) prove nothing against a tube. */
const FAR = 60;
const POINT = 5;
const SPAN = 8;

/** Gathers what is certain about a cell. */
export function cellBody(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  cell: Cell,
): CellBody {
  const { at: p, direction: d } = problem.starts[start] as RouteProblem['starts'][number];
  const { at: q, direction: e } = problem.slots[slot] as RouteProblem['slots'][number];
  const points: number[] = [];
  const spans: number[] = [];
  const middle: number[] = [];
  tellCertainPoints(problem, start, slot, clrs, cell, (x, y, z, moves, where) => {
    if (where === 'middle straight') middle.push(x, y, z);
    if (moves <= FAR) points.push(x, y, z, moves, where === 'last bend' ? LAST_BEND : ELSEWHERE);
    return false;
  });
  if (middle.length > 3) spans.push(...middle.slice(0, 3), ...middle.slice(-3), cell.half, ELSEWHERE);
  const along = (at: typeof p, way: typeof d, sign: 1 | -1, most: number, where: number): void => {
    const sure = Math.max(0, most);
    const place = (s: number): number[] => at.map((x, i) => x + sign * s * (way[i] as number));
    for (let s = 0; s <= sure; s += SPACING) points.push(...place(s), 0, where);
    spans.push(...at, ...place(sure), 0, where);
  };
  along(p, d, 1, cell.first[0], ELSEWHERE);
  along(q, e, -1, cell.last[0], LAST_STRAIGHT);
  return { length: cell.length, points: Float64Array.from(points), spans: Float64Array.from(spans) };
}

/** The distance (mm) that two parts of two tubes surely owe each other; 0 where none is asked. */
function owed({ apart }: RouteProblem, a: number, b: number): number {
  if (a === LAST_STRAIGHT && b === LAST_STRAIGHT) return 0;
  return a > ELSEWHERE && b > ELSEWHERE ? Math.min(apart.anywhere, apart.nearEnds) : apart.anywhere;
}

/** Whether every tube of one cell comes too near to every tube of the other. */
export const cellsClash = (problem: RouteProblem, a: CellBody, b: CellBody): boolean =>
  pointMeetsSpan(problem, a, b) || pointMeetsSpan(problem, b, a) || pointsMeet(problem, a, b);

function pointMeetsSpan(problem: RouteProblem, { points }: CellBody, { spans }: CellBody): boolean {
  for (let i = 0; i < points.length; i += POINT) {
    const [x, y, z] = [points[i] as number, points[i + 1] as number, points[i + 2] as number];
    const moves = points[i + 3] as number;
    for (let o = 0; o < spans.length; o += SPAN) {
      const need =
        owed(problem, points[i + 4] as number, spans[o + 7] as number) - moves - (spans[o + 6] as number);
      if (need <= 0) continue;
      const [sx, sy, sz] = [spans[o] as number, spans[o + 1] as number, spans[o + 2] as number];
      const [vx, vy, vz] = [
        (spans[o + 3] as number) - sx,
        (spans[o + 4] as number) - sy,
        (spans[o + 5] as number) - sz,
      ];
      const square = vx * vx + vy * vy + vz * vz;
      const share = square > 0 ? ((x - sx) * vx + (y - sy) * vy + (z - sz) * vz) / square : 0;
      const t = share < 0 ? 0 : share > 1 ? 1 : share;
      const [dx, dy, dz] = [x - sx - t * vx, y - sy - t * vy, z - sz - t * vz];
      if (dx * dx + dy * dy + dz * dz < need * need) return true;
    }
  }
  return false;
}

/** Bends against bends, by their points. */
function pointsMeet(problem: RouteProblem, { points: p }: CellBody, { points: q }: CellBody): boolean {
  for (let i = 0; i < p.length; i += POINT) {
    // Points that do not move lie on spans, which have been asked.
    if (p[i + 3] === 0) continue;
    for (let j = 0; j < q.length; j += POINT) {
      if (q[j + 3] === 0) continue;
      const need =
        owed(problem, p[i + 4] as number, q[j + 4] as number) - (p[i + 3] as number) - (q[j + 3] as number);
      if (need <= 0) continue;
      const [dx, dy, dz] = [
        (p[i] as number) - (q[j] as number),
        (p[i + 1] as number) - (q[j + 1] as number),
        (p[i + 2] as number) - (q[j + 2] as number),
      ];
      if (dx * dx + dy * dy + dz * dz < need * need) return true;
    }
  }
  return false;
}
