import { readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, Refusal, type Place, type Problem } from '../base/problems.js';
import { rackFits, readJob, readRack, type Rack } from '../job/index.js';
import type { Job } from '../job/job.js';
import type { JobOrder } from './job-order.js';
import { textBeside, textOrNothing } from './text-beside.js';

/** A job's rack as read from its file, held against the job's tube. */
export interface RackOfJob {
  readonly value: Rack | undefined;
  readonly text: string;
  readonly problems: readonly Problem[];
}

/**
 * Reads the rack that a job names, from beside the job.
 * @returns undefined where the job names none
 * @throws Refusal build/no-file
 */
export function rackOf(job: Job, file: string, shown: string): RackOfJob | undefined {
  if (job.rack === undefined) return undefined;
  const place = path.resolve(path.dirname(file), job.rack);
  const name = path.join(path.dirname(shown), job.rack);
  const at = (): Place => {
    const { locate } = readJob(readFileSync(file, 'utf8'), { file: shown });
    return { file: shown, path: 'rack', ...locate('rack') };
  };
  const text = textBeside(place, name, at);
  if (text === undefined)
    throw new Refusal([
      {
        code: 'build/no-file',
        severity: 'error',
        what: `there is no rack file ${name}`,
        why: 'without it nobody knows which bends there are',
        fix: `write it, or correct \`rack:\` in ${shown}`,
        place: at(),
      },
    ]);
  const { value, problems, locate } = readRack(text, { file: name });
  const all = value === undefined ? problems : [...problems, ...rackFits(job, value, locate)];
  return { value: all.some(isError) ? undefined : value, text, problems: all };
}

/** The text of a job's rack, where there is one. */
export function rackTextOf(job: Job | undefined, { file }: Pick<JobOrder, 'file'>): string {
  const rack = job?.rack === undefined ? undefined : path.resolve(path.dirname(file), job.rack);
  return rack === undefined ? '' : textOrNothing(rack);
}
