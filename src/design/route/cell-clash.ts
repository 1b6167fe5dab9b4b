import { squaredBetweenSpans } from '../../geom/span-distance.js';
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
  /**
   * Two ends, how far every tube's axis passes from any point between them at most (mm), where it stands; its
   * middle, and half its length.
   */
  readonly spans: Float64Array;
}

/** Points that move more (mm) prove nothing against a tube. */
const FAR = 60;
const SPAN = 12;

/** Gathers what is certain about a cell: straights that no route of it is without, and points of its bends. */
export function cellBody(
  problem: RouteProblem,
  start: number,
  slot: number,
  clrs: readonly [number, number],
  cell: Cell,
): CellBody {
  const { at: p, direction: d } = problem.starts[start] as RouteProblem['starts'][number];
  const { at: q, direction: e } = problem.slots[slot] as RouteProblem['slots'][number];
  let count = 0;
  const add = (x: number, y: number, z: number, moves: number, where: number): number => {
    const o = SPAN * count++;
    drawn[o] = x;
    drawn[o + 1] = y;
    drawn[o + 2] = z;
    drawn[o + 6] = moves;
    drawn[o + 7] = where;
    endAt(o, x, y, z);
    return o;
  };
  const first = Math.max(0, cell.first[0]);
  const last = Math.max(0, cell.last[0]);
  endAt(add(p[0], p[1], p[2], 0, ELSEWHERE), p[0] + first * d[0], p[1] + first * d[1], p[2] + first * d[2]);
  endAt(add(q[0], q[1], q[2], 0, LAST_STRAIGHT), q[0] - last * e[0], q[1] - last * e[1], q[2] - last * e[2]);
  // The looks along the middle straight are told in turn: the first and the last of them bound it.
  let middle = -1;
  tellCertainPoints(problem, start, slot, clrs, cell, (x, y, z, moves, where) => {
    if (where === 'middle straight' && middle >= 0) endAt(middle, x, y, z);
    else if (moves <= FAR) {
      const o = add(x, y, z, moves, where === 'last bend' ? LAST_BEND : ELSEWHERE);
      if (where === 'middle straight') middle = o;
    }
    return false;
  });
  return { length: cell.length, spans: drawn.slice(0, SPAN * count) };
}

/** Three straights and six points of bends at most. */
const drawn = new Float64Array(9 * SPAN);

/** Ends a span being drawn. */
function endAt(o: number, x: number, y: number, z: number): void {
  drawn[o + 3] = x;
  drawn[o + 4] = y;
  drawn[o + 5] = z;
  const [px, py, pz] = [drawn[o] as number, drawn[o + 1] as number, drawn[o + 2] as number];
  drawn[o + 8] = (px + x) / 2;
  drawn[o + 9] = (py + y) / 2;
  drawn[o + 10] = (pz + z) / 2;
  drawn[o + 11] = Math.sqrt((x - px) ** 2 + (y - py) ** 2 + (z - pz) ** 2) / 2;
}

/** The distance (mm) that two parts of two tubes surely owe each other; 0 where none is asked. */
function owed({ apart }: RouteProblem, a: number, b: number): number {
  if (a === LAST_STRAIGHT && b === LAST_STRAIGHT) return 0;
  return a > ELSEWHERE && b > ELSEWHERE ? Math.min(apart.anywhere, apart.nearEnds) : apart.anywhere;
}

/** Whether every tube of one cell comes too near to every tube of the other. */
export function cellsClash(problem: RouteProblem, { spans: a }: CellBody, { spans: b }: CellBody): boolean {
  for (let i = 0; i < a.length; i += SPAN) {
    const [moves, where] = [a[i + 6] as number, a[i + 7] as number];
    for (let j = 0; j < b.length; j += SPAN) {
      const need = owed(problem, where, b[j + 7] as number) - moves - (b[j + 6] as number);
      if (need <= 0) continue;
      // Most are so far apart that even the spheres about them are.
      const x = (a[i + 8] as number) - (b[j + 8] as number);
      const y = (a[i + 9] as number) - (b[j + 9] as number);
      const z = (a[i + 10] as number) - (b[j + 10] as number);
      const reach = need + (a[i + 11] as number) + (b[j + 11] as number);
      if (x * x + y * y + z * z >= reach * reach) continue;
      if (squaredBetweenSpans(a, i, b, j) < need * need) return true;
    }
  }
  return false;
}
