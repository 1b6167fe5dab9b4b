import { readJob } from '../../../src/job/index.js';
import type { Job } from '../../../src/job/job.js';
import { linesByHand } from '../../../src/design/routes-by-hand.js';
import { serviceOf, type Service } from '../../../src/design/service/index.js';
import type { FieldOf } from '../../../src/design/route/index.js';
import type { Problem } from '../../../src/base/problems.js';

/*
 * One port, one tube: 40 out, a quarter bend down, 200 down, into a collector that is drawn off downward.
 * All of it can be reckoned in the head:
 *   the flange is 10 thick, so the tube begins at [0, 0, 10]; its axis is at out 113.6 from up -63.6 on,
 *   and ends at up -263.6, where the collector's body (110 across, 160 long) begins: it ends at up -423.6;
 *   slip depth 45 + 3 beyond = 48 to draw, so the body reaches up -471.6;
 *   the outermost of the header is out 113.6 + 21.2 = 134.8; studs stand 26, so it is drawn 29, to 163.8.
 */
export const oneTube = (keepOuts: string, more = ''): string => `
job: one-tube
ports:
  shape: { circle: { diameter: 36 } }
  row: { count: 1 }
studs: { thread: M8, at: [[-36, 0], [36, 0]], stands: 26 }
flange: { thickness: 10, web: { height: 0 } }
tube: { od: 42.4, wall: 1.6, material: '304' }
primaries:
  stub: 20
  last_straight: 60
  by_hand:
    P1: [{ straight: 40 }, { clr: 63.6, angle: 90, clock: 180 }, { straight: 200 }]
collector:
  joint: slip
  at: [0, -263.6, 113.6]
  flow: [0, -1, 0]
  clocking: 0
  slip: { depth: 45, gap: 0.4 }
  body: { length: 160, diameter: 110 }
keep_outs:
  - { name: head, kind: head, head_of: [P1], box: { from: [-60, -60, -200], to: [60, 60, 0] } }
${keepOuts}${more}`;

/** A job read, and how it is fitted. */
export function fitted(
  text: string,
  fieldOf?: FieldOf,
): { job: Job; service: Service; problems: readonly Problem[] } {
  const { value: job, problems: faults } = readJob(text);
  if (job === undefined) throw new Error(faults.map((p) => p.what).join('\n'));
  const { value, problems } = serviceOf(job, linesByHand(job), fieldOf);
  if (value === undefined) throw new Error('no routes');
  return { job, service: value, problems };
}
