import type { DesignedFlange } from '../../src/design/flange/designed.js';
import { designFlanges } from '../../src/design/flange/flange.js';
import { jobFrom } from '../../src/job/index.js';
import type { Job } from '../../src/job/job.js';
import type { Problem } from '../../src/base/problems.js';

/** An invented four-port flange that can be made as it stands. */
export const plainFlange = {
  job: 'trial',
  ports: {
    shape: { rounded_rectangle: { width: 34, height: 30, corner: 12 } },
    row: { count: 4, pitch: 92 },
    leaving: { down: 12 },
  },
  studs: {
    thread: 'M8',
    beside_each_port: [
      [-36, 22],
      [36, -22],
    ],
  },
  flange: { thickness: 10, edge: 10, web: { height: 30 } },
  tube: { od: 42.4, wall: 1.6 },
  primaries: { joint_at_flange: 'butt' },
} as const;

/** Sections laid over the plain ones, one level deep: `{ flange: { nick: true } }`. */
export function flangeSections(over: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const merged: Record<string, unknown> = { ...plainFlange };
  for (const [key, value] of Object.entries(over)) {
    const before = merged[key];
    const both = typeof value === 'object' && value !== null && !Array.isArray(value);
    merged[key] = both && typeof before === 'object' ? { ...before, ...value } : value;
    if (value === undefined) delete merged[key];
  }
  return merged;
}

/** The plain job with sections laid over. */
export function flangeJob(over: Readonly<Record<string, unknown>> = {}): Job {
  const { value, problems } = jobFrom(flangeSections(over));
  if (value === undefined) throw new Error(problems.map((p) => `${p.code}: ${p.what}`).join('; '));
  return value;
}

/** The one flange of such a job. */
export function flangeOf(over: Readonly<Record<string, unknown>> = {}): DesignedFlange {
  const { value, problems } = designFlanges(flangeJob(over));
  const [first] = value ?? [];
  if (first === undefined) throw new Error(problems.map((p) => `${p.code}: ${p.what}`).join('; '));
  return first;
}

/** What the flange's design has to say about such a job. */
export const flangeProblems = (over: Readonly<Record<string, unknown>> = {}): readonly Problem[] =>
  designFlanges(flangeJob(over)).problems;
