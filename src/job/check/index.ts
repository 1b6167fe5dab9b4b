import { type Job } from '../job.js';
import { type Sections } from '../complete/index.js';
import { type Reading } from '../reading.js';

/** All checks that need more than one key. */
export function checkJob(_job: Job, _written: Sections, _reading: Reading): void {
  return;
}
