import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Problem } from '../base/problems.js';
import type { Measure } from './measure/measure.js';

/** The manifest's name in an export folder. */
export const manifestName = 'manifest.json';

/** One file of an export. */
export interface FileRecord {
  /** Within the folder, with forward slashes. */
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
  /** Name of the part it shows. */
  readonly part: string;
  /** Hash of what the part was made from. */
  readonly inputs: string;
  /** Present on a file carried over whose part's inputs have changed since. */
  readonly stale?: true;
}

/** What an export folder holds, what it was made from, and how it measured. */
export interface Manifest {
  readonly job: string;
  /** Of the job's text and what was set beside it: the same as in a route record found for this very job. */
  readonly jobHash: string;
  /** Of all that the parts were designed from: the job and the frozen routes. */
  readonly sourceHash?: string;
  /** Of the program and the libraries that shaped the files. */
  readonly versions: Readonly<Record<string, string>>;
  /** That the routes were found with; 0 where there are none. */
  readonly seed: number;
  readonly files: readonly FileRecord[];
  readonly measures: readonly Measure[];
  /**
   * On a build of everything: hash of all that it was made from, and what was told to the user then, so that
   * the same build asked for again need not be worked out to be known.
   */
  readonly whole?: { readonly from: string; readonly told: readonly Problem[] };
}

/** SHA-256 of some bytes or text, in hexadecimal. */
export const hashOf = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

/**
 * The manifest as text: files by path, versions by name, measures in the order they were taken, a line for
 * each, and no time of day. The same export gives the same bytes.
 */
export function manifestText(manifest: Manifest): string {
  const { job, jobHash, seed } = manifest;
  const byName = Object.entries(manifest.versions).sort(([a], [b]) => (a < b ? -1 : 1));
  const files = [...manifest.files]
    .sort((a, b) => (a.path < b.path ? -1 : 1))
    .map(({ path, bytes, sha256, part, inputs, stale }) =>
      JSON.stringify({ path, bytes, sha256, part, inputs, ...(stale ? { stale } : {}) }),
    );
  const measures = manifest.measures.map(({ part, what, asked, measured, unit, tolerance, reader, ok }) =>
    JSON.stringify({ part, what, asked, measured, unit, tolerance, reader, ok }),
  );
  const rows = (list: readonly string[]): string =>
    list.length === 0 ? '[]' : `[\n    ${list.join(',\n    ')}\n  ]`;
  return [
    '{',
    `  "job": ${JSON.stringify(job)},`,
    `  "jobHash": ${JSON.stringify(jobHash)},`,
    ...(manifest.sourceHash === undefined ? [] : [`  "sourceHash": ${JSON.stringify(manifest.sourceHash)},`]),
    `  "versions": ${JSON.stringify(Object.fromEntries(byName))},`,
    `  "seed": ${seed},`,
    `  "files": ${rows(files)},`,
    `  "measures": ${rows(measures)}${manifest.whole === undefined ? '' : ','}`,
    ...(manifest.whole === undefined ? [] : [`  "whole": ${JSON.stringify(manifest.whole)}`]),
    '}\n',
  ].join('\n');
}

/** The manifest of a folder, or undefined where there is none, or none of ours. */
export function readManifest(folder: string): Manifest | undefined {
  let found: unknown;
  try {
    found = JSON.parse(readFileSync(path.join(folder, manifestName), 'utf8'));
  } catch {
    return undefined;
  }
  return isManifest(found) ? found : undefined;
}

function isManifest(found: unknown): found is Manifest {
  if (typeof found !== 'object' || found === null) return false;
  const { job, jobHash, versions, seed, files, measures } = found as Record<string, unknown>;
  const listOfObjects = (list: unknown): list is readonly Record<string, unknown>[] =>
    Array.isArray(list) && list.every((row) => typeof row === 'object' && row !== null);
  return (
    typeof job === 'string' &&
    typeof jobHash === 'string' &&
    typeof versions === 'object' &&
    typeof seed === 'number' &&
    listOfObjects(files) &&
    files.every((row) => ['path', 'sha256', 'part', 'inputs'].every((key) => typeof row[key] === 'string')) &&
    files.every((row) => staysInside(String(row['path']))) &&
    listOfObjects(measures)
  );
}

/** Whether a path within a folder is plain: relative, with forward slashes, and never upward. */
export const staysInside = (file: string): boolean =>
  file !== '' &&
  !path.isAbsolute(file) &&
  !file.includes('\\') &&
  file.split('/').every((step) => step !== '' && step !== '.' && step !== '..');

/** How a file of a manifest stands on the disk now. */
export interface FileState {
  readonly path: string;
  readonly state: 'good' | 'changed' | 'missing';
  readonly stale: boolean;
}

/**
 * Reads every file that a folder's manifest lists and compares its hash.
 * @returns undefined where the folder has no manifest of ours
 */
export function verifyManifest(folder: string): readonly FileState[] | undefined {
  const manifest = readManifest(folder);
  return manifest?.files.map((record) => ({
    path: record.path,
    state: stateOf(folder, record),
    stale: record.stale === true,
  }));
}

/** How one recorded file stands on the disk. */
export function stateOf(folder: string, record: FileRecord): FileState['state'] {
  try {
    return hashOf(readFileSync(path.join(folder, record.path))) === record.sha256 ? 'good' : 'changed';
  } catch {
    return 'missing';
  }
}
