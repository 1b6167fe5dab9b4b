import { size, times } from '../../base/points.js';
import { grownConvex } from '../../geom/convex.js';
import { hullOfDiscs, stadium } from '../../geom/hulls.js';
import { circleLoop } from '../../geom/loops.js';
import { plateOutline } from '../../geom/outline.js';
import type { Loop } from '../../geom/segments.js';
import type { CollectorSpec, MergePlateSpec, Tube } from '../../job/job.js';
import type { Opening, RoundHole } from '../parts.js';
import { boltRing, madeHow, type BoltRing } from './bolts.js';
import { reachOutside, ringRules, tubeHoles, type RingRules, type TubeHole } from './tubes.js';

/** A merge plate laid out, before it is checked and marked. */
export interface MergePlan {
  readonly plate: MergePlateSpec;
  readonly collector: CollectorSpec;
  readonly tube: Tube;
  readonly rules: RingRules;
  readonly tubes: readonly TubeHole[];
  readonly centre: Opening | undefined;
  readonly star: RoundHole | undefined;
  readonly bolts: BoltRing | undefined;
  readonly outline: Loop;
  /** How many pieces the metal round the holes makes. */
  readonly pieces: number;
}

/** Lays out the plate: its ring of tubes, what stands in the middle, its bolts and its outline. */
export function planMerge(
  tube: Tube,
  collector: CollectorSpec,
  plate: MergePlateSpec,
  count: number,
): MergePlan {
  const rules = ringRules(tube.od, count, collector, plate);
  const tubes = tubeHoles(rules);
  const bolts = boltRing(plate, tubes);
  const centre =
    plate.centreTube === undefined
      ? undefined
      : {
          name: 'centre tube',
          loop: circleLoop([0, 0], (plate.centreTube + plate.gap) / 2),
          exact: undefined,
        };
  const star: RoundHole | undefined =
    plate.starHole === undefined
      ? undefined
      : { name: 'star', at: [0, 0], diameter: plate.starHole, made: madeHow(plate.starHole, plate) };
  return { plate, collector, tube, rules, tubes, centre, star, bolts, ...outlineOf(plate, tubes, bolts) };
}

/**
 * A disc that leaves the edge outside everything, or an outline that hugs: a pad round every hole, a belt of
 * metal through the middles of the tubes that ties them together, concave corners rounded.
 */
function outlineOf(
  plate: MergePlateSpec,
  tubes: readonly TubeHole[],
  bolts: BoltRing | undefined,
): { readonly outline: Loop; readonly pieces: number } {
  const { edge, fillet } = plate;
  if (plate.outline === 'round') {
    const bolt = bolts === undefined ? 0 : bolts.radius + (bolts.holes[0]?.diameter ?? 0) / 2;
    return { outline: circleLoop([0, 0], Math.max(reachOutside(tubes), bolt) + edge), pieces: 1 };
  }
  const pads: Loop[] = tubes.map(({ opening }) => grownConvex(opening.loop, edge));
  pads.push(hullOfDiscs(tubes.map(({ at }) => ({ at, radius: edge }))));
  // A lug for every bolt, tied back to the ring of tubes however far out it stands.
  for (const { at, diameter } of bolts?.holes ?? []) {
    const inner = Math.min(1, size(tubes[0]?.at ?? at) / size(at));
    pads.push(stadium(at, times(at, inner), diameter / 2 + edge));
  }
  return plateOutline(pads, fillet);
}
