import { cosSin } from '../../base/numbers.js';
import { size, times, type Point } from '../../base/points.js';
import { tolerance } from '../../base/tolerance.js';
import { chordsOf } from '../../geom/chords.js';
import { leastGap } from '../../geom/least-gap.js';
import { distanceTo, isInside, pointOf } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import { shadowOf } from '../../geom/shadow.js';
import type { CollectorSpec, MergePlateSpec } from '../../job/job.js';
import { pitchRadius } from '../collector-slots.js';
import type { Opening } from '../parts.js';

/** What places and shapes the holes of the ring. Lengths mm, angles rad. */
export interface RingRules {
  readonly od: number;
  readonly count: number;
  readonly slotGap: number;
  /** Lean of the tubes toward the axis: 0 for slip joints. */
  readonly lean: number;
  readonly clocking: number;
  /** Of the plate's upstream face, along the axis, from the tubes' ends. */
  readonly upstream: number;
  readonly thickness: number;
  /** On the diameter. */
  readonly gap: number;
}

/** A tube's hole. The drawing's origin is the collector's axis, x its clocking zero, seen looking upstream. */
export interface TubeHole {
  /** S1, S2, ... */
  readonly slot: string;
  /** Where the slot stands round the axis, rad counter-clockwise from x. */
  readonly clock: number;
  /** Where the tube's axis goes through the middle of the thickness. */
  readonly at: Point;
  readonly opening: Opening;
  /** Along the lean; the width is the tube and the gap. */
  readonly length: number;
  /** The most by which the cut lies outside the true opening, mm; it never lies inside. */
  readonly deviation: number;
}

/** The rules of a plate's ring, from its job. */
export const ringRules = (
  od: number,
  count: number,
  collector: CollectorSpec,
  plate: MergePlateSpec,
): RingRules => ({
  od,
  count,
  slotGap: collector.slotGap,
  lean: collector.joint === 'welded' ? collector.halfAngle : 0,
  clocking: collector.clocking ?? 0,
  upstream: plate.upstream,
  thickness: plate.thickness,
  gap: plate.gap,
});

/**
 * How far the tubes' axes stand from the collector's axis, `upstream` mm before the tubes' ends:
 * r + upstream tan h, for leaning tubes spread out against the flow.
 */
export function pitchAt({ od, slotGap, count, lean }: RingRules, upstream: number): number {
  const [c, s] = cosSin(lean);
  return pitchRadius(od, slotGap, count) + (upstream * s) / c;
}

/**
 * The hole of one tube: the shadow of the tube and its gap through the thickness, cut square. The true
 * outline has ellipses; the cut one has arcs that never lie inside it, so that the tube never touches.
 */
export function tubeHole(rules: RingRules, index: number): TubeHole {
  const { od, count, lean, upstream, thickness, gap } = rules;
  const clock = rules.clocking + (2 * Math.PI * index) / count;
  const [c, s] = cosSin(lean);
  const side: Point = cosSin(clock);
  const shadow = shadowOf(
    {
      at: times(side, pitchAt(rules, 0)),
      zAt: upstream,
      direction: [-side[0] * s, -side[1] * s, c],
      diameter: od + gap,
      from: 0,
      to: thickness,
    },
    { side: 'never inside' },
  );
  const slot = `S${index + 1}`;
  // A hole of plain arcs is its own true outline.
  const exact = shadow.exact.some((piece) => piece.kind === 'ellipse') ? shadow.exact : undefined;
  return {
    slot,
    clock,
    at: times(side, pitchAt(rules, upstream - thickness / 2)),
    opening: { name: `tube ${slot}`, loop: shadow.loop, exact },
    length: shadow.length,
    deviation: exact === undefined ? 0 : shadow.deviation,
  };
}

export const tubeHoles = (rules: RingRules): readonly TubeHole[] =>
  Array.from({ length: rules.count }, (_, i) => tubeHole(rules, i));

/** Metal between two loops, mm; 0 where they cross or one holds the other. */
export function webBetween(a: Loop, b: Loop): number {
  if (isInside(a, pointOf(b)) || isInside(b, pointOf(a))) return 0;
  return leastGap(a, b).gap;
}

/** Metal between neighbouring holes of the ring, mm; 0 where they run into each other. */
export const neighbourWeb = (rules: RingRules): number =>
  webBetween(tubeHole(rules, 0).opening.loop, tubeHole(rules, 1).opening.loop);

/** The largest circle about the axis that is free of the ring's holes, mm of radius; 0 where there is none. */
export const freeInside = (holes: readonly TubeHole[]): number =>
  Math.min(
    ...holes.map(({ opening: { loop } }) => (isInside(loop, [0, 0]) ? 0 : distanceTo(loop, [0, 0]).distance)),
  );

/** The smallest circle about the axis that holds all the ring's holes, mm of radius. */
export const reachOutside = (holes: readonly TubeHole[]): number =>
  Math.max(...holes.flatMap(({ opening }) => chordsOf(opening.loop, tolerance.curveFit).map(size)));

/**
 * The least value in whole tenths, from what it is now, that is enough; undefined where the most is not.
 * What is enough at one value is enough at every larger one.
 */
export function leastThat(now: number, most: number, enough: (value: number) => boolean): number | undefined {
  if (!enough(most)) return undefined;
  let [low, high] = [now, most];
  while (high - low > 0.005) {
    const middle = (low + high) / 2;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  const tenths = Math.ceil(low * 10);
  return (enough(tenths / 10) ? tenths : tenths + 1) / 10;
}
