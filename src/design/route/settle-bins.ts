import { cellsClash } from './cell-clash.js';
import { treeOf, type LiveCell } from './cell-tree.js';
import type { RouteProblem } from './problem.js';

/** Cells of a greater half width (mm) tell so little that none is held against another. */
const ASK_AT = 4;

/** Bins of lengths (mm) side by side. */
export interface FamilyBins {
  readonly from: number;
  readonly width: number;
  readonly count: number;
}

/** Of two families in a bin: not asked about, not yet known to get along, taken to get along. */
export const SHUT = 0;
export const OPEN = 1;
export const ALONG = 2;

/** Two families to be settled. */
export interface PairOrder {
  readonly one: readonly [start: number, slot: number];
  readonly other: readonly [start: number, slot: number];
  readonly bins: FamilyBins;
  /** By bin. */
  readonly settled: Uint8Array;
  /** As in a proof of pairs. */
  readonly half: number;
  readonly clashes: number;
}

/**
 * Settles the bins in which two families may get along: both trees of cells are gone down together, and what
 * clashes as a whole is left. What is open at the end is proved shut.
 */
export function settleBins(
  problem: RouteProblem,
  { one: [i, j], other: [k, l], bins, settled: open, half, clashes }: PairOrder,
): Uint8Array {
  const [one, other] = [treeOf(problem, i, j), treeOf(problem, k, l)];
  const settled = open.slice();
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
  return settled;
}
