import type { Job } from '../../job/job.js';
import type { Rack } from '../../job/rack.js';
import { fewestWeldsOf } from './fewest-welds.js';
import { primariesToCut, type RouteToCut } from './primaries-to-cut.js';
import { cuttingRules } from './rules.js';
import { waysWithin, type Step, type Ways } from './ways.js';

/** Stations at which a primary may be welded, by P1, P2, ...: mm along the centre line, ascending. */
export type WeldPlaces = ReadonlyMap<string, readonly number[]>;

/**
 * Where the pieces of each primary may be joined: the welds of every plan that has the fewest. Which of these
 * plans is taken depends on prices and stock; what keeps clear of all of them need not know. The welds at the
 * flange and at a welded collector are left out. A rack that gives out may force welds elsewhere.
 * @returns nothing for a primary that cannot be cut from the rack
 */
export function weldPlaces(job: Job, routes: readonly RouteToCut[], rack: Rack): WeldPlaces {
  const rules = cuttingRules(rack);
  const found = new Map<string, readonly number[]>();
  for (const primary of primariesToCut(job, routes)) {
    const fewest = fewestWeldsOf(primary, rules);
    if (fewest === undefined) continue;
    const ways = waysWithin(fewest.ways, fewest.welds);
    const places = ways.steps.flatMap((steps) => steps.flatMap((step) => jointsOf(ways, step)));
    found.set(
      primary.id,
      [...new Set(places)].sort((a, b) => a - b),
    );
  }
  return found;
}

/** The joints that one step makes: in its straight, and inside its bend. */
function jointsOf({ course }: Ways, { straight, share, bend }: Step): number[] {
  const joints: number[] = [];
  let at = (course.straights[straight]?.at ?? 0) + share.before;
  // What ends at the flange or at the collector meets no other piece.
  if (straight > 0 && (bend !== undefined || share.inserts.length > 0)) joints.push(at);
  share.inserts.forEach((insert, i) => {
    at += insert;
    if (bend !== undefined || i < share.inserts.length - 1) joints.push(at);
  });
  const arc = course.bends[straight];
  if (arc !== undefined && bend !== undefined)
    for (const { from } of bend.pieces) if (from > 0) joints.push(arc.at + arc.clr * from);
  return joints;
}
