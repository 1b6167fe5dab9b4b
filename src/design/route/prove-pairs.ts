import { cellsClash } from './cell-clash.js';
import { CellTree, type LiveCell } from './cell-tree.js';
import type { RouteProblem } from './problem.js';

/** How hard to look for families of routes that shut each other out. */
export interface PairProof {
  /** Half width (mm) at which two cells that do not clash are let get along. */
  readonly half: number;
  /**
   * Clashes asked at most, for any two families; beyond that they are taken to get along, so that the count
   * errs on the safe side.
   */
  readonly clashes: number;
}

/** Cells of a greater half width (mm) tell so little that none is held against another. */
const ASK_AT = 4;

/** Bins of lengths (mm) side by side. */
export interface LengthBins {
  readonly from: number;
  readonly width: number;
  readonly count: number;
  /** Where a primary of the fewest welds may be in a bin that is asked about; false in all others. */
  readonly mayBe: (start: number, slot: number, bin: number) => boolean;
}

/**
 * By bin of lengths, the most primaries that may have the fewest welds together: two families of routes shut
 * each other out in a bin where no cell of one and cell of the other share a length in it without a clash.
 */
export function mostTogether(problem: RouteProblem, bins: LengthBins, proof: PairProof): readonly number[] {
  const count = problem.starts.length;
  const trees = new Map<number, CellTree>();
  const treeOf = (i: number, j: number): CellTree => {
    const known = trees.get(i * count + j) ?? new CellTree(problem, i, j);
    trees.set(i * count + j, known);
    return known;
  };
  const known = new Map<number, Uint8Array>();
  const settledFor = (i: number, j: number, k: number, l: number): Uint8Array => {
    const key = ((i * count + j) * count + k) * count + l;
    let settled = known.get(key);
    if (settled === undefined) {
      settled = Uint8Array.from({ length: bins.count }, (_, bin) =>
        bins.mayBe(i, j, bin) && bins.mayBe(k, l, bin) ? OPEN : SHUT,
      );
      settleBins(problem, treeOf(i, j), treeOf(k, l), bins, settled, proof);
      known.set(key, settled);
    }
    return settled;
  };
  return Array.from({ length: bins.count }, (_, bin) =>
    mostOf(
      problem,
      (i, j) => bins.mayBe(i, j, bin),
      (i, j, k, l) => settledFor(i, j, k, l)[bin] === ALONG,
    ),
  );
}

/** Of two families in a bin: not asked about, not yet known to get along, taken to get along. */
const SHUT = 0;
const OPEN = 1;
const ALONG = 2;

/**
 * Settles the bins in which two families may get along: both trees of cells are gone down together, and what
 * clashes as a whole is left. What is open at the end is proved shut.
 */
function settleBins(
  problem: RouteProblem,
  one: CellTree,
  other: CellTree,
  bins: LengthBins,
  settled: Uint8Array,
  { half, clashes }: PairProof,
): void {
  let asked = 0;
  const meet = (x: LiveCell, y: LiveCell): void => {
    const [a, b] = [x.cell.length, y.cell.length];
    const from = a[0] > b[0] ? a[0] : b[0];
    const to = a[1] < b[1] ? a[1] : b[1];
    if (from > to) return;
    const low = Math.max(0, Math.floor((from - bins.from) / bins.width));
    const high = Math.min(bins.count - 1, Math.floor((to - bins.from) / bins.width));
    // Nothing to learn where all bins that the two may share are settled.
    let bin = low;
    while (bin <= high && settled[bin] !== OPEN) bin++;
    if (bin > high) return;
    if (asked < clashes) {
      const [p, q] = [x.cell.half, y.cell.half];
      if (p <= ASK_AT && q <= ASK_AT) {
        asked++;
        if (cellsClash(problem, one.body(x), other.body(y))) return;
      }
      if (p > half || q > half) {
        if (p >= q) for (const quarter of one.quarters(x)) meet(quarter, y);
        else for (const quarter of other.quarters(y)) meet(x, quarter);
        return;
      }
    }
    for (; bin <= high; bin++) if (settled[bin] === OPEN) settled[bin] = ALONG;
  };
  for (const x of one.roots()) for (const y of other.roots()) meet(x, y);
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
