import { add, scale } from '../../base/vectors.js';
import type { Job, Stud } from '../../job/job.js';
import { threadOf } from '../../job/tables/threads.js';
import type { Obstacle } from './obstacles.js';

/** How far a socket with its extension reaches out from the flange (mm). Common practice, no source. */
const SOCKET_REACH = 110;
/** What a ring spanner takes along the stud (mm), with the nut drawn off it. Common practice, no source. */
const SPANNER_REACH = 40;
/** Outside of a ring spanner's head against its nut, across the corners. Common practice, no source. */
const RING = 1.6;
/** Socket room against the hole, where the job names no thread. Common practice, no source. */
const SOCKET_BY_HOLE = 2.8;

/**
 * The room that a tool needs on each stud: a cylinder along it from the flange's outer side. A tube may touch
 * it, not enter it. A spanner is taken to reach in from any side above the tubes, so only its ring is kept.
 */
export function wrenchSpaces({
  studs,
  flange,
  wrench,
}: Pick<Job, 'studs' | 'flange' | 'wrench'>): readonly Obstacle[] {
  if (studs === undefined) return [];
  const spanner = wrench.tool === 'spanner';
  const reach = spanner ? SPANNER_REACH : SOCKET_REACH;
  return studs.all.map((stud: Stud, i): Obstacle => {
    const thread = stud.thread === undefined ? undefined : threadOf(stud.thread);
    const byHole = stud.hole * SOCKET_BY_HOLE;
    const diameter = spanner ? RING * (thread?.acrossCorners ?? byHole) : (thread?.socket ?? byHole);
    const from = add(stud.at, scale(stud.face.out, flange?.thickness ?? 0));
    const to = add(from, scale(stud.face.out, reach));
    return {
      name: `wrench space of stud ${i + 1}`,
      path: stud.path,
      clear: 0,
      headOf: [],
      ofCollector: false,
      slot: undefined,
      solid: { kind: 'cylinder', from, to, diameter },
    };
  });
}
