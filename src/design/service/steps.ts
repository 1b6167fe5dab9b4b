import type { Vector } from '../../base/vectors.js';
import type { Growth } from './growth.js';
import type { Mover } from './movers.js';
import type { Blocker } from './order.js';
import type { Shift } from './shift.js';

/** Something in the way of a step, and the smallest move of it that was tried and helps. */
export type ToldBlocker = Blocker & { readonly path: string | undefined; readonly shift: Shift | undefined };

/** One step of taking the header off. mm; directions in the engine's frame. */
export interface ServiceStep {
  readonly kind: Mover['kind'];
  readonly name: string;
  /** Of nuts: the stud's number. */
  readonly stud: number | undefined;
  readonly way: Vector;
  readonly distance: number;
  /** Least gap to what is in place then, never above the truth. */
  readonly free: number;
  readonly nearest: string | undefined;
  readonly overlaps: readonly string[];
  readonly blockers: readonly ToldBlocker[];
  readonly path: string | undefined;
}

/** A neighbour that comes out for service: after which step of the header's, if any. */
export interface NeighbourOut {
  readonly name: string;
  readonly way: Vector;
  readonly distance: number;
  /** What has to be off before; empty where it comes out with all in place. */
  readonly after: readonly string[];
  readonly step: ServiceStep;
}

/** How the header comes off; it goes on by the same steps the other way, from the last to the first. */
export interface Service {
  /** In one with its collector: welded to it, or because the collector cannot be drawn off. */
  readonly inOne: boolean;
  readonly comesOff: boolean;
  readonly steps: readonly ServiceStep[];
  /** Faces of one stiff header that no single way leaves. */
  readonly joined: readonly (readonly string[])[];
  readonly neighbours: readonly NeighbourOut[];
  readonly growth: Growth | undefined;
  /** The collector's own attempt, where the header comes off in one because of it. */
  readonly collectorStays: ServiceStep | undefined;
}
