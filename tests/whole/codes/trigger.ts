import { writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Problem } from '../../../src/base/problems.js';
import { command, inFolder } from '../../support/command.js';

/** What was told: under which code, and whether with file and line. */
export interface Told {
  readonly code: string;
  readonly placed: boolean;
}

/** What brings a code about. */
export interface Trigger {
  readonly code: string;
  /** Whether it is told with the file and line it stands at. */
  readonly placed: boolean;
  readonly raise: () => Promise<readonly Told[]> | readonly Told[];
}

/** A head of a problem as printed: severity, where it stands where it stands anywhere, and the code. */
const HEAD = /^(?:error|warning|note) .*\[([a-z-]+\/[a-z-]+)\]$/gm;

/** What a command line tells, standing in a folder. */
export async function toldBy(folder: string, ...args: string[]): Promise<readonly Told[]> {
  const { error } = await command(folder, ...args);
  return [...error.matchAll(HEAD)].map(([head, code = '']) => ({ code, placed: /\S:\d+:\d+ /.test(head) }));
}

type Files = Readonly<Record<string, string | Uint8Array | object>>;

/** Lays files into a folder; what is neither text nor bytes is written as JSON, which is YAML too. */
export function lay(folder: string, files: Files): void {
  for (const [name, what] of Object.entries(files))
    writeFileSync(
      path.join(folder, name),
      typeof what === 'string' || what instanceof Uint8Array ? what : JSON.stringify(what, null, 1),
    );
}

/** A command on files laid into a folder of their own. */
export const ran = (files: Files, ...args: string[]): Promise<readonly Told[]> =>
  inFolder((folder) => {
    lay(folder, files);
    return toldBy(folder, ...args);
  });

/** A code that `check` tells of a job, at its line. */
export const inJob = (code: string, job: string | object, more: Files = {}, placed = true): Trigger => ({
  code,
  placed,
  raise: () => ran({ 'job.yaml': job, ...more }, 'check', 'job.yaml'),
});

/** A code that a command line brings about, with files beside it. */
export const onLine = (
  code: string,
  args: readonly string[],
  files: Files = {},
  placed = false,
): Trigger => ({
  code,
  placed,
  raise: () => ran(files, ...args),
});

/** A code that a function of ours hands back. */
export const from = (
  code: string,
  raise: () => Promise<readonly Pick<Problem, 'code'>[]> | readonly Pick<Problem, 'code'>[],
): Trigger => ({
  code,
  placed: false,
  raise: async () => (await raise()).map((problem) => ({ code: problem.code, placed: false })),
});
