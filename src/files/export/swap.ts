import { existsSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { readManifest, stateOf, verifyManifest } from '../manifest.js';
import { byHandName, filesIn } from './carry.js';

/** The folder and what stands beside it while a build is written. */
export interface Stand {
  readonly target: string;
  /** Where the new files are gathered. */
  readonly fresh: string;
  /** Where the old folder waits until the new one is in place. */
  readonly old: string;
  readonly lock: string;
}

/** The names used beside a folder. They are the same in every run, so that the next can mend a swap cut short. */
export function standOf(target: string): Stand {
  const beside = (what: string): string =>
    path.join(path.dirname(target), `.${path.basename(target)}.tackwright-${what}`);
  return { target, fresh: beside('new'), old: beside('old'), lock: beside('lock') };
}

/** What stands at a path. */
export function whatIsAt(place: string): 'nothing' | 'file' | 'empty folder' | 'export' | 'other folder' {
  if (!existsSync(place)) return 'nothing';
  if (!statSync(place).isDirectory()) return 'file';
  if (readdirSync(place).length === 0) return 'empty folder';
  return readManifest(place) ? 'export' : 'other folder';
}

/**
 * Puts right what a build that was cut short has left behind, at whatever moment that was:
 * - while the new files were gathered: they are thrown away, the old folder stands;
 * - between setting the old folder aside and putting the new one in place: the new one goes in if it is
 *   whole, else the old one goes back;
 * - before the old one was cleared away: it is cleared away now.
 * The caller holds the lock.
 * @returns whether the folder that stands there now was put in place by mending
 */
export function mend({ target, fresh, old }: Stand): boolean {
  const bare = (): boolean => ['nothing', 'empty folder'].includes(whatIsAt(target));
  let put = false;
  if (existsSync(old) && bare()) {
    if (existsSync(target)) rmdirSync(target);
    const whole = verifyManifest(fresh)?.every((file) => file.state === 'good') ?? false;
    renameSync(whole ? fresh : old, target);
    put = true;
  }
  rmSync(fresh, { recursive: true, force: true });
  if (existsSync(old) && whatIsAt(target) === 'export') clearAway(old, target);
  return put;
}

/** Puts the new folder in the old one's place: two renamings, and on failure the old one goes back. */
export function swapIn({ target, fresh, old }: Stand, onStage: (stage: SwapStage) => void): void {
  const before = whatIsAt(target);
  if (before === 'empty folder') rmdirSync(target);
  if (before === 'export') renameSync(target, old);
  onStage('old set aside');
  try {
    renameSync(fresh, target);
  } catch (error) {
    if (before === 'export') renameSync(old, target);
    throw error;
  }
  onStage('new in place');
  if (before !== 'export') return;
  try {
    clearAway(old, target);
  } catch {
    // The new folder is in place and whole; the next build clears away what is left of the old one.
  }
}

export type SwapStage = 'old set aside' | 'new in place';

/**
 * Takes the old folder away, but first brings over whatever somebody dropped into it after its files had
 * been carried over.
 */
function clearAway(old: string, target: string): void {
  const records = new Map(readManifest(old)?.files.map((record) => [record.path, record]));
  for (const file of filesIn(old)) {
    const record = records.get(file);
    const ours = record !== undefined && stateOf(old, record) === 'good';
    const there = [file, byHandName(file)].some((name) => existsSync(path.join(target, name)));
    if (ours || there) continue;
    mkdirSync(path.dirname(path.join(target, file)), { recursive: true });
    renameSync(path.join(old, file), path.join(target, file));
  }
  rmSync(old, { recursive: true, force: true });
}
