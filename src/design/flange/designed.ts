import type { PlatePart } from '../parts.js';
import type { StudHoles } from './holes.js';
import type { PortOpening } from './opening.js';
import type { PlatePlan } from './plan.js';

/** A plate as designed, with what the other parts need to know of it. */
export interface DesignedFlange {
  readonly part: PlatePart;
  readonly plan: PlatePlan;
  readonly openings: readonly PortOpening[];
  readonly holes: StudHoles;
}
