import type { RackStraight } from '../../job/rack.js';
import type { StockBend } from './rules.js';
import type { BendToCut, InsertToCut } from './way-pieces.js';
import type { Step } from './ways.js';

/** What is sawn from one stock bend. */
export interface BendUse {
  readonly stock: StockBend;
  readonly endA: BendToCut | undefined;
  /** Arcs between the ends, in order from A. */
  readonly middles: readonly BendToCut[];
  readonly endB: BendToCut | undefined;
  readonly whole: BendToCut | undefined;
  /** Inserts sawn from its unused legs. */
  readonly inserts: readonly [a: InsertToCut | undefined, b: InsertToCut | undefined];
}

/** What is sawn from one stick, in order from its one end. */
export interface StickUse {
  readonly stock: RackStraight;
  readonly inserts: readonly InsertToCut[];
}

/** Which stock is bought or taken, and how all of it is sawn. */
export interface StockPlan {
  /** The chosen way of each primary. */
  readonly ways: readonly (readonly Step[])[];
  readonly bends: readonly BendUse[];
  readonly sticks: readonly StickUse[];
  readonly cost: number;
}

export const costOf = (bends: readonly BendUse[], sticks: readonly StickUse[]): number =>
  [...bends, ...sticks].reduce((sum, { stock }) => sum + stock.price, 0);
