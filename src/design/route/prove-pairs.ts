import { armReach } from './arm-reach.js';
import { cellBody, cellsClash, type CellBody } from './cell-clash.js';
import { cellOf, quartersOf } from './cells.js';
import { cellIsBlocked, cellMayBeFewest, firstCells } from './live-cells.js';
import type { RouteProblem } from './problem.js';

/** How hard to look for families of routes that shut each other out. */
export interface PairProof {
  /** Half width (mm) of the cells that are held against each other. */
  readonly half: number;
  /**
   * Clashes asked at most; beyond that families are taken to get along, so that the count errs on the safe side.
   */
  readonly clashes: number;
}

/** The live cells of one port and slot, whatever their radii. */
function liveBodies(problem: RouteProblem, start: number, slot: number, half: number): CellBody[] {
  const bodies: CellBody[] = [];
  const reach = armReach(problem, start, slot);
  for (const one of problem.stock)
    for (const two of problem.stock) {
      const clrs = [one.clr, two.clr] as const;
      const stack = [...firstCells(problem, start)];
      for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
        const cell = cellOf(problem, start, slot, clrs, reach, at);
        if (cell === undefined || !cellMayBeFewest(problem, clrs, cell)) continue;
        if (cellIsBlocked(problem, start, slot, clrs, cell)) continue;
        if (at.half > half) stack.push(...quartersOf(at));
        else bodies.push(cellBody(problem, start, slot, clrs, cell));
      }
    }
  return bodies;
}

/** Where a primary of the fewest welds may be: by port, slot and bin. */
export type MayBeFewest = (start: number, slot: number, bin: number) => boolean;

/**
 * By bin of lengths, the most primaries that may have the fewest welds together: two families of routes shut
 * each other out in a bin where every live cell of one clashes with every live cell of the other.
 */
export function mostTogether(
  problem: RouteProblem,
  bins: readonly { readonly from: number; readonly to: number }[],
  mayBe: MayBeFewest,
  { half, clashes }: PairProof,
): readonly number[] {
  const count = problem.starts.length;
  const bodies = problem.starts.map((_, i) =>
    problem.slots.map((_, j) =>
      bins.some((_, bin) => mayBe(i, j, bin)) ? liveBodies(problem, i, j, half) : [],
    ),
  );
  let asked = 0;
  return bins.map(({ from, to }, bin) => {
    const here = bodies.map((row, i) =>
      row.map((all, j) =>
        mayBe(i, j, bin) ? all.filter(({ length }) => length[0] <= to && length[1] >= from) : [],
      ),
    );
    const known = new Map<number, boolean>();
    const getAlong = (i: number, j: number, k: number, l: number): boolean => {
      const key = ((i * count + j) * count + k) * count + l;
      let along = known.get(key);
      if (along === undefined) {
        along = someGetAlong(here[i]?.[j] ?? [], here[k]?.[l] ?? []);
        known.set(key, along);
      }
      return along;
    };
    const someGetAlong = (a: readonly CellBody[], b: readonly CellBody[]): boolean => {
      // In steps, so that a pair that gets along is soon met.
      const step = Math.max(1, Math.floor(a.length / 40));
      for (let phase = 0; phase < step; phase++)
        for (let x = phase; x < a.length; x += step) {
          const one = a[x] as CellBody;
          for (const other of b) {
            if (one.length[0] > other.length[1] || other.length[0] > one.length[1]) continue;
            if (asked++ > clashes || !cellsClash(problem, one, other)) return true;
          }
        }
      return false;
    };
    return mostOf(problem, (i, j) => (here[i]?.[j]?.length ?? 0) > 0, getAlong);
  });
}

/** The most primaries, each with a slot of its own, that may be and get along in pairs. */
function mostOf(
  { starts, orders }: RouteProblem,
  may: (i: number, j: number) => boolean,
  getAlong: (i: number, j: number, k: number, l: number) => boolean,
): number {
  const count = starts.length;
  let most = 0;
  const go = (i: number, taken: readonly (readonly [number, number])[]): void => {
    if (taken.length > most) most = taken.length;
    if (i === count || taken.length + count - i <= most) return;
    for (let j = 0; j < count; j++) {
      if (!may(i, j) || taken.some(([, slot]) => slot === j)) continue;
      if (orders && !orders.some((order) => order[i] === j && taken.every(([k, l]) => order[k] === l)))
        continue;
      if (taken.every(([k, l]) => getAlong(k, l, i, j))) go(i + 1, [...taken, [i, j]]);
    }
    go(i + 1, taken);
  };
  go(0, []);
  return most;
}
