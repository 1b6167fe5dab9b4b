import type { Job } from '../job.js';
import type { Reading } from '../reading.js';
import type { SectionName, Sections } from '../schema/job.js';

/** What the checks work on: the completed job, the sections as written, and what the file names at all. */
export interface Checked {
  readonly job: Job;
  readonly written: Sections;
  /** Whether the file has a section, even one that could not be read. */
  readonly given: (name: SectionName) => boolean;
  readonly reading: Reading;
}
