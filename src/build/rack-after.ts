import { existsSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { isError, Refusal, type Problem } from '../base/problems.js';
import { rackAfter, type CutList } from '../design/pieces/index.js';
import { readRack } from '../job/index.js';
import type { Job } from '../job/job.js';
import { rackOf } from './rack-file.js';
import { rackText } from './rack-text.js';

/** Where the rack that is left is to be written: absolute, and as the user calls it. */
export interface RackAfterOrder {
  readonly file: string;
  readonly shown: string;
}

/**
 * Refuses a file that is there already, before anything is made: a rack is never written over.
 * @throws Refusal build/exists, build/no-file
 */
export function refuseOldRack({ file, shown }: RackAfterOrder): void {
  if (existsSync(file)) throw new Refusal([exists(shown)]);
  const folder = path.dirname(file);
  if (!existsSync(folder))
    throw new Refusal([
      {
        code: 'build/no-file',
        severity: 'error',
        what: `there is no folder ${path.dirname(shown)}`,
        why: 'the rack that is left cannot be written',
        fix: 'make the folder, or name a file in one that is there: --rack-after rack-2.yaml',
        place: { file: shown },
      },
    ]);
}

/**
 * Writes what the rack holds after a cut list into a new file, read back first.
 * @returns why it was not written, if so: the build beside it stands all the same
 */
export function writeRackAfter(
  to: RackAfterOrder,
  job: Job | undefined,
  list: CutList | undefined,
  from: { readonly file: string; readonly shown: string },
): readonly Problem[] {
  const rack = job && rackOf(job, from.file, from.shown)?.value;
  if (rack === undefined || list === undefined)
    return [
      {
        code: 'build/no-cut-list',
        severity: 'error',
        what: `${to.shown} was not written: this build made 0 cut lists`,
        why: 'without a cut list nobody knows what is left of the rack',
        fix: 'give the job routes (`tackwright route`) and 1 rack, and leave `cut-list` in --only',
        place: { file: from.shown },
      },
    ];
  const text = rackText(rackAfter(rack, list), from.shown);
  const back = readRack(text, { file: to.shown });
  const faults = back.problems.filter(isError);
  if (faults.length > 0) return faults;
  try {
    writeFileSync(to.file, text, { flag: 'wx' });
    return [];
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return [exists(to.shown)];
    throw error;
  }
}

const exists = (shown: string): Problem => ({
  code: 'build/exists',
  severity: 'error',
  what: `${shown} is there already`,
  why: 'a rack file is never written over: the old one says what the header was sawn from',
  fix: 'name a file that is not there yet: --rack-after rack-2.yaml',
  place: { file: shown },
});
