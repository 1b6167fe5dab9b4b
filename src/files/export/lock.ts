import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { kill, pid } from 'node:process';
import { setTimeout as pause } from 'node:timers/promises';
import { systemCode } from './disk-problems.js';

/** How long a build waits for another to finish writing, and how often it looks, ms. */
const PATIENCE = 10_000;
const GLANCE = 20;

/** Who holds a lock. */
export interface Holder {
  readonly pid: number;
  readonly host: string;
}

/**
 * Takes the lock of an export folder: a file that only one process can create. A lock whose process is
 * gone is broken; one that is held is waited for.
 * @returns undefined once the lock is ours, or who holds it where patience ran out
 * @throws what the system throws where the file cannot be written
 */
export async function takeLock(file: string, patience = PATIENCE): Promise<Holder | undefined> {
  const mine = JSON.stringify({ pid, host: hostname() });
  for (let waited = 0; ; waited += GLANCE) {
    try {
      writeFileSync(file, mine, { flag: 'wx' });
      return undefined;
    } catch (error) {
      if (systemCode(error) !== 'EEXIST') throw error;
    }
    const holder = holderOf(file);
    if (holder && isGone(holder)) breakLock(file, holder);
    else if (waited >= patience) return holder ?? { pid: 0, host: 'unknown' };
    else await pause(GLANCE);
  }
}

/** Gives the lock back. */
export const leaveLock = (file: string): void => rmSync(file, { force: true });

/** Who holds the lock; undefined where it has just been given back, or is being written this moment. */
function holderOf(file: string): Holder | undefined {
  try {
    const { pid, host } = JSON.parse(readFileSync(file, 'utf8')) as Record<string, unknown>;
    return typeof pid === 'number' && typeof host === 'string' ? { pid, host } : undefined;
  } catch {
    return undefined;
  }
}

function isGone(holder: Holder): boolean {
  // Nobody here can tell whether a process of another computer still runs.
  if (holder.host !== hostname()) return false;
  try {
    kill(holder.pid, 0);
    return false;
  } catch (error) {
    return systemCode(error) === 'ESRCH';
  }
}

/**
 * Takes a dead process's lock away. Renaming lets only one of several waiting builds have it; should it
 * turn out to be a living one's, taken in the meantime, it is put back.
 */
function breakLock(file: string, dead: Holder): void {
  const taken = `${file}-${pid}`;
  try {
    renameSync(file, taken);
  } catch {
    return;
  }
  if (holderOf(taken)?.pid !== dead.pid) linkSync(taken, file);
  rmSync(taken, { force: true });
}
