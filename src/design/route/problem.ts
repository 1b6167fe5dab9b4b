import type { Vector } from '../../base/vectors.js';
import type { CentreLineStart } from '../../geom/centre-line.js';
import type { AskedApart } from '../../geom/line-to-line.js';
import type { SolidSet } from '../../geom/solids.js';
import type { BuiltPart } from './built.js';
import type { KeptPrimary } from './kept.js';
import type { Obstacle } from './obstacles.js';
import type { WeldCounter } from '../pieces/weld-counter.js';
import type { BendStock } from './stock.js';
import type { Waiver } from './waiver.js';

/** Where a primary begins. */
export interface RouteStart extends CentreLineStart {
  /** P1, P2, ... */
  readonly id: string;
  /**
   * Up to this station the head that the port stands on is waived; as far as the axis then stays clear of it,
   * the first straight need not be measured against it.
   */
  readonly waiver: Waiver;
  /** Least first straight, mm. */
  readonly stub: number;
  /** What stands of it already, where it begins at the open end of that. */
  readonly built: BuiltPart | undefined;
  /** Fewest welds of a primary from here, by its straights, radii and angles; Infinity where it cannot be cut. */
  readonly countWelds: WeldCounter;
}

/** Where a primary ends: the tube's own end, and the flow there. */
export interface RouteSlot {
  /** S1, S2, ... */
  readonly id: string;
  readonly at: Vector;
  readonly direction: Vector;
}

/** Some of the obstacles, packed; `named` has them in the order of the set. */
export interface Round {
  readonly solids: SolidSet;
  readonly named: readonly Obstacle[];
}

/** What one primary from a port to a slot has to keep clear of, span by span. */
export interface Surroundings {
  /**
   * Up to where its heads cease to be waived (stations, rising): one span where it has one head or none, and
   * one more for each head that its axis clears further out.
   */
  readonly beginnings: readonly (Round & { readonly until: number })[];
  /** From there to the last straight. */
  readonly middle: Round;
  readonly lastStraight: Round;
}

/** What counts at a station of a primary, mm, where that is not on its last straight. */
export function roundAt({ beginnings, middle }: Surroundings, station: number): SolidSet {
  for (const beginning of beginnings) if (station <= beginning.until) return beginning.solids;
  return middle.solids;
}

/** What is asked of every primary. mm and rad. */
export interface RouteLimits {
  readonly between: number;
  readonly lastStraight: number;
  readonly leastAngle: number;
  readonly largestAngle: number;
  /** The job allows larger bends than the search makes: what is proved must not rest on the largest angle. */
  readonly anglesLeftOut: boolean;
  /** The common length lies in this window. */
  readonly window: { readonly from: number; readonly to: number };
  /** Lengths may differ by this, which is spent on round numbers. */
  readonly spread: number;
}

/** A routing problem: all that the search looks at, places in the engine's frame. Frozen; knows no job. */
export interface RouteProblem {
  readonly starts: readonly RouteStart[];
  readonly slots: readonly RouteSlot[];
  /** By port: primaries given by hand, which stay as they are; undefined for those to be routed. */
  readonly kept: readonly (KeptPrimary | undefined)[];
  /** Slot of each primary, one list an allowed order; undefined where any order will do. */
  readonly orders: readonly (readonly number[])[] | undefined;
  /** Of the primaries' tube, mm. */
  readonly od: number;
  readonly stock: readonly BendStock[];
  readonly limits: RouteLimits;
  readonly apart: AskedApart;
  /** Clearance (mm) asked of a tube against itself. */
  readonly clearOfItself: number;
  readonly obstacles: readonly Obstacle[];
  /** By port, then slot. */
  readonly surroundings: readonly (readonly Surroundings[])[];
  /** The collector's pose these slots belong to. */
  readonly collector: { readonly at: Vector; readonly flow: Vector; readonly clocking: number };
}

/** Length (mm) of what stands of a primary already: its whole length is that and its line's. */
export const builtLengthOf = ({ starts }: RouteProblem, start: number): number =>
  starts[start]?.built?.length ?? 0;

/** The surroundings of a primary from port `start` to slot `slot`, by their places in the lists. */
export function surroundingsOf(problem: RouteProblem, start: number, slot: number): Surroundings {
  const found = problem.surroundings[start]?.[slot];
  if (found === undefined) throw new RangeError(`no port ${start} or slot ${slot}`);
  return found;
}
