import { jobFrom } from '../../src/job/index.js';
import type { Job } from '../../src/job/job.js';

/** An invented job of `count` primaries of 42.4 tube with a merge plate; keys given go into the sections. */
export function mergeJob(
  count: number,
  plate: Record<string, unknown> = {},
  collector: Record<string, unknown> = {},
  sections: Record<string, unknown> = {},
): Job {
  const { value, problems } = jobFrom(mergeSections(count, plate, collector, sections));
  if (value === undefined) throw new Error(JSON.stringify(problems, null, 1));
  return value;
}

/** What its job file says. */
export const mergeSections = (
  count: number,
  plate: Record<string, unknown> = {},
  collector: Record<string, unknown> = {},
  sections: Record<string, unknown> = {},
): Record<string, unknown> => ({
  job: 'invented',
  ports: { row: { count, pitch: 92 } },
  tube: { od: 42.4, wall: 1.6 },
  collector: {
    joint: 'welded',
    at: [150, -400, 180],
    flow: [0, -1, 0],
    half_angle: 8,
    clocking: 45,
    slot_gap: 10,
    ...collector,
  },
  merge_plate: { thickness: 6, cut_by: 'laser', upstream: 6, ...plate },
  ...sections,
});
