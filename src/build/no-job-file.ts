import { statSync } from 'node:fs';
import type { Problem } from '../base/problems.js';

/**
 * Told where no job can be read from a path: nothing is there, or a folder; undefined where a file is.
 * @param shown the path as the user gave it
 */
export function noJobFile(file: string, shown: string): Problem | undefined {
  const found = statSync(file, { throwIfNoEntry: false });
  if (found !== undefined && !found.isDirectory()) return undefined;
  return {
    code: 'build/no-file',
    severity: 'error',
    what: found === undefined ? `there is no file ${shown}` : `${shown} is a folder`,
    why: 'there is no job to read',
    fix:
      found === undefined
        ? 'give the path of a job file, such as fixtures/hillclimb-four/job.yaml, or make one with `tackwright new`'
        : `give the job file in it, such as ${shown.replace(/[/\\]+$/, '')}/job.yaml`,
    place: { file: shown },
  };
}
