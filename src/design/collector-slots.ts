import type { Frame } from '../base/frames.js';
import { cosSin } from '../base/numbers.js';
import { add, cross3, scale, turnedAbout, type Vector } from '../base/vectors.js';
import { collectorClockingZero } from '../geom/clocking-zero.js';
import type { CollectorSpec } from '../job/job.js';

/** One place at the collector's mouth. */
export interface CollectorSlot {
  /** S1, S2, ... round the axis. */
  readonly id: string;
  /** Centre of the tube's end, mm in the engine's frame. */
  readonly at: Vector;
  /** Unit flow of the tube there. */
  readonly direction: Vector;
  /** Unit direction from the collector's axis to the slot. */
  readonly side: Vector;
  /** From the collector's clocking zero, right hand about the flow, rad. */
  readonly clock: number;
}

export interface CollectorSlots {
  /**
   * Looking upstream into the collector's mouth from behind: `right` along the clocking zero, `out` the flow.
   * Right hand about the flow is counter-clockwise in it, so S1, S2, ... run counter-clockwise.
   */
  readonly frame: Frame;
  /** Radius of the circle on which the tubes' ends stand, mm. */
  readonly radius: number;
  /** How far the tubes lean in toward the axis, rad: 0 for slip joints. */
  readonly lean: number;
  readonly slots: readonly CollectorSlot[];
}

/** What of a collector places its slots. */
export type SlotRules = Pick<CollectorSpec, 'at' | 'flow' | 'joint' | 'halfAngle' | 'clocking' | 'slotGap'>;

/**
 * Radius of the circle on which n tubes stand with a gap between neighbours, mm:
 * r = (OD + gap) / (2 sin(pi / n)). One tube stands on the axis.
 * @see tables of circles packed in a ring: with no gap 1, 1.1547, 1.4142, 1.7013, 2 tube radii for n = 2 to 6
 */
export const pitchRadius = (od: number, gap: number, count: number): number =>
  count < 2 ? 0 : (od + gap) / (2 * cosSin(Math.PI / count)[1]);

/**
 * Where the primaries' ends stand at the collector's mouth, and which way they point.
 * Slip joints run parallel to the flow, or the collector could not be drawn off; welded ones lean in by the
 * half angle: flow cos h - side sin h. A clocking that the job leaves free is taken as 0.
 * @param od of the primaries, mm
 * @param count of the primaries, 1 or more
 */
export function collectorSlots(collector: SlotRules, od: number, count: number): CollectorSlots {
  const { at, flow, joint, halfAngle, clocking = 0, slotGap } = collector;
  const zero = collectorClockingZero(flow);
  const radius = pitchRadius(od, slotGap, count);
  const lean = joint === 'welded' && count > 1 ? halfAngle : 0;
  const [c, s] = cosSin(lean);
  const slots = Array.from({ length: count }, (_, i): CollectorSlot => {
    const clock = clocking + (2 * Math.PI * i) / count;
    const side = turnedAbout(zero, flow, clock);
    return {
      id: `S${i + 1}`,
      at: add(at, scale(side, radius)),
      direction: lean === 0 ? flow : add(scale(flow, c), scale(side, -s)),
      side,
      clock,
    };
  });
  return { frame: { origin: at, right: zero, up: cross3(flow, zero), out: flow }, radius, lean, slots };
}
