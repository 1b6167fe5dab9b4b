import type { Job } from '../job.js';
import type { Sections } from '../schema/job.js';

/** Corrections at the bench; none where nothing is said. */
export const completeAsCut = (written: Sections['as_cut']): Job['asCut'] =>
  Object.fromEntries(
    Object.entries(written ?? {}).map(([piece, one]) => [
      piece,
      typeof one === 'string'
        ? one
        : { angle: one.angle, legUp: one.leg_up, legDown: one.leg_down, length: one.length },
    ]),
  );
