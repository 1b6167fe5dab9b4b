import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { run } from '../../src/cli/run.js';

/** What a command line left: exit code and what it printed. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly error: string;
}

/** Runs a command line in this process as the program would, standing in `folder`. */
export async function command(folder: string, ...args: string[]): Promise<Ran> {
  let out = '';
  let error = '';
  const code = await run(args, {
    out: { isTTY: false, columns: undefined, write: (text) => (out += text) },
    error: { isTTY: false, columns: undefined, write: (text) => (error += text) },
    env: {},
    folder,
    now: () => 0,
  });
  return { code, out, error };
}

/** Runs something in a folder of its own that is gone afterwards. */
export async function inFolder<T>(work: (folder: string) => T | Promise<T>): Promise<T> {
  const folder = mkdtempSync(path.join(tmpdir(), 'tackwright-test-'));
  try {
    return await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
