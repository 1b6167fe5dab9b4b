import type { Problem } from '../../base/problems.js';

/*
 * What a build is told about its folder, other than what the disk itself refuses.
 */

const error = (folder: string) => ({ severity: 'error', place: { file: folder } }) as const;

export const isFile = (folder: string): Problem => ({
  ...error(folder),
  code: 'file/target-is-a-file',
  what: `${folder} is a file, not a folder`,
  why: 'The files of a build go into a folder of their own; the file is left alone.',
  fix: `move or rename ${folder}, or name another folder`,
});

export const notOurs = (folder: string): Problem => ({
  ...error(folder),
  code: 'file/not-ours',
  what: `${folder} holds things but no manifest.json of a build`,
  why: 'A build replaces its folder as a whole, so it touches only folders that it made itself.',
  fix: `name another folder, or move what is in ${folder}`,
});

export const busy = (folder: string, lock: string, pid: number, host: string): Problem => ({
  ...error(folder),
  code: 'file/busy',
  what: `another build (process ${pid} on ${host}) is writing to ${folder}`,
  why: 'Two builds at once would mix their files.',
  fix: `wait for it to end; if no such build runs any more, delete ${lock}`,
});

export const badName = (file: { readonly part: string; readonly path: string }): Problem => ({
  code: 'file/bug',
  severity: 'error',
  what: `a file for ${file.part} has a name that leaves the folder or is used twice: ${file.path}`,
  why: 'Nothing was written.',
  fix: 'report it with the job file',
});

export const mended = (folder: string): Problem => ({
  code: 'file/mended',
  severity: 'note',
  what: `an earlier build was cut short while ${folder} was being put in place; the folder has been put right`,
  why: 'Files of two builds must not be mixed.',
  fix: 'nothing: this build goes on from there',
  place: { file: folder },
});

export const changedByHand = (folder: string, from: string, to: string): Problem => ({
  code: 'file/changed-by-hand',
  severity: 'warning',
  what: `${from} was changed by hand since it was built; the changed one is kept as ${to}`,
  why: 'Only what the program wrote has been measured.',
  fix: `put the change into the job file, then delete ${to}`,
  place: { file: folder },
});

export const staleFiles = (folder: string, stale: readonly string[]): Problem => ({
  code: 'file/stale',
  severity: 'warning',
  what: `carried over from a job that has changed since: ${stale.join(', ')}`,
  why: 'Parts made from two states of a job do not fit each other.',
  fix: 'build everything again before you cut or print',
  place: { file: folder },
});
