import { add, cross3, scale, turnedAbout, type Vector } from '../../base/vectors.js';
import { collectorClockingZero } from '../../geom/clocking-zero.js';
import type { CollectorSpec } from '../../job/job.js';
import type { CollectorPose } from './set-problem.js';

/** How many clockings are looked at within the turn after which the slots stand as before. */
const CLOCKINGS = 4;

/** The collector's own pose; a clocking that the job leaves free is 0. */
export const ownPose = ({ at, flow, clocking = 0 }: CollectorSpec): CollectorPose => ({ at, flow, clocking });

/**
 * Clockings to look at where the job leaves it free: over the turn after which any order of slots is as before,
 * or the whole turn where each primary has its slot by name. Just the job's own where it gives one.
 */
export function clockingPoses(collector: CollectorSpec, count: number): readonly CollectorPose[] {
  const own = ownPose(collector);
  if (collector.clocking !== undefined || count < 2) return [own];
  const named = typeof collector.slots !== 'string';
  const poses = named ? CLOCKINGS * 2 : CLOCKINGS;
  const turn = named ? 2 * Math.PI : (2 * Math.PI) / count;
  return Array.from({ length: poses }, (_, i) => ({ ...own, clocking: (turn * i) / poses }));
}

/**
 * Poses about one to which the job lets the collector move: along its flow, across it two ways, tilted about
 * two axes; all the way either side. None where it may not move.
 */
export function movedPoses(collector: CollectorSpec, pose: CollectorPose): readonly CollectorPose[] {
  const { along, across, tilt } = collector.mayMove;
  const [x, z] = [collectorClockingZero(pose.flow), pose.flow];
  const y = cross3(z, x);
  const shift = (d: Vector, by: number): CollectorPose => ({ ...pose, at: add(pose.at, scale(d, by)) });
  const lean = (axis: Vector, by: number): CollectorPose => ({
    ...pose,
    flow: turnedAbout(pose.flow, axis, by),
  });
  const both = (by: number): number[] => (by > 0 ? [by, -by] : []);
  return [
    ...both(along).map((by) => shift(z, by)),
    ...[x, y].flatMap((d) => both(across).map((by) => shift(d, by))),
    ...[x, y].flatMap((axis) => both(tilt).map((by) => lean(axis, by))),
  ];
}
