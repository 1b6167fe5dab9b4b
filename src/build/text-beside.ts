import { readFileSync } from 'node:fs';
import { Refusal, type Place } from '../base/problems.js';

/**
 * The text of a file that a job stands beside, or undefined where there is none.
 * @param place absolute, and `shown` as the user would call it
 * @param at where in the job it is named; the file itself where nothing is said
 * @throws Refusal build/no-file where something else of that name lies there, or it may not be read
 */
export function textBeside(place: string, shown: string, at?: () => Place): string | undefined {
  try {
    return readFileSync(place, 'utf8');
  } catch (reason) {
    const { code } = reason as NodeJS.ErrnoException;
    if (code === undefined) throw reason;
    if (code === 'ENOENT') return undefined;
    const folder = code === 'EISDIR';
    throw new Refusal([
      {
        code: 'build/no-file',
        severity: 'error',
        what: folder ? `${shown} is a folder` : `${shown} cannot be read (${code})`,
        why: 'what stands in it would be passed over',
        fix: folder
          ? `name 1 file in it, or move the folder ${shown} away`
          : 'give yourself the right to read this 1 file',
        place: at?.() ?? { file: shown },
      },
    ]);
  }
}

/** The same where it is told elsewhere that it cannot be read: then it counts as empty. */
export function textOrNothing(place: string): string {
  try {
    return readFileSync(place, 'utf8');
  } catch {
    return '';
  }
}
