import { isError, Refusal, type Outcome } from '../base/problems.js';
import { designFlanges } from '../design/flange/flange.js';
import { type PlatePart } from '../design/parts.js';
import { jobFrom } from '../job/index.js';
import { type Job } from '../job/job.js';

/** Sections of a job as a script writes them: the same keys and units as in a job file. */
export type Sections = Readonly<Record<string, unknown>>;

/**
 * The port flange of these sections (ports, studs, flange, and tube and primaries where the tube is to be
 * fitted), or one plate per port where flange.made_as says so.
 * @throws Refusal with every problem that would make the plate scrap
 */
export const portFlange = (sections: Sections): readonly PlatePart[] =>
  needed(designFlanges(jobOf(sections))).map((each) => each.part);

/** The sections as a checked job. */
export function jobOf(sections: Sections): Job {
  return needed(jobFrom({ job: 'script', ...sections }));
}

/** The value of an outcome, or its problems thrown. */
export function needed<T>({ value, problems }: Outcome<T>): T {
  if (value === undefined || problems.some(isError)) throw new Refusal(problems);
  return value;
}
