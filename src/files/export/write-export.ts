import { mkdirSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Outcome, Problem } from '../../base/problems.js';
import {
  hashOf,
  manifestName,
  manifestText,
  readManifest,
  staysInside,
  type FileRecord,
  type Manifest,
} from '../manifest.js';
import type { Measure } from '../measure/measure.js';
import { carryOver, type Carried, type KeptParts } from './carry.js';
import { problemFromDisk, systemCode } from './disk-problems.js';
import { badName, busy, changedByHand, isFile, mended, notOurs, staleFiles } from './export-problems.js';
import { leaveLock, takeLock } from './lock.js';
import { mend, standOf, swapIn, whatIsAt, type Stand, type SwapStage } from './swap.js';

/** A file to be written. */
export interface ExportFile {
  /** Within the folder, with forward slashes. */
  readonly path: string;
  readonly part: string;
  /** Hash of what the part was made from. */
  readonly inputs: string;
  readonly bytes: Uint8Array | string;
}

/** What a build hands over. */
export interface Export extends Omit<Manifest, 'files'> {
  readonly files: readonly ExportFile[];
  /** Whether files of earlier builds that are not among these are carried over (`--only`, `--formats`). */
  readonly partial: boolean;
  /** Parts that could not be made: their files are carried over too, and told of in these words. */
  readonly keep?: KeptParts | undefined;
  /** Hash of the inputs of every part the job has now, by its name: tells which carried files are stale. */
  readonly partInputs: Readonly<Record<string, string>>;
}

/** What stands in the folder afterwards. */
export interface ExportReport {
  readonly folder: string;
  readonly manifest: Manifest;
  /** Paths of our files carried over from earlier builds, stale ones included. */
  readonly carried: readonly string[];
  readonly stale: readonly string[];
  /** Paths of files that somebody dropped there. */
  readonly kept: readonly string[];
}

export interface ExportHooks {
  /** Told of every stage as it is reached; tests stop the program there. */
  readonly onStage?: (stage: 'locked' | 'half written' | 'all written' | SwapStage) => void;
  /** How long to wait for another build, ms. */
  readonly patience?: number;
}

/**
 * Writes an export folder in one piece. All files are gathered in a folder beside the target, the manifest
 * last, and swapped in by two renamings; whatever goes wrong, the folder holds the files of one build and
 * nothing is left beside it. A swap cut short earlier is mended first. Files dropped into the folder by hand
 * are kept. Guards against the program being stopped, not against a disk that loses what it has acknowledged.
 *
 * @returns the report, and what is to be told: refusals as errors, stale and hand-changed files as warnings
 */
export async function writeExport(
  folder: string,
  contents: Export,
  hooks: ExportHooks = {},
): Promise<Outcome<ExportReport>> {
  const misnamed = contents.files.filter(
    (file, i, all) => !staysInside(file.path) || all.findIndex((other) => other.path === file.path) !== i,
  );
  if (misnamed.length > 0) return { value: undefined, problems: misnamed.map(badName) };
  try {
    const stand = standOf(realPlace(folder));
    mkdirSync(path.dirname(stand.target), { recursive: true });
    const holder = await takeLock(stand.lock, hooks.patience);
    if (holder) return { value: undefined, problems: [busy(folder, stand.lock, holder.pid, holder.host)] };
    try {
      return write(folder, stand, contents, hooks.onStage ?? (() => {}));
    } finally {
      leaveLock(stand.lock);
    }
  } catch (error) {
    return { value: undefined, problems: [problemFromDisk(error, folder)] };
  }
}

function write(
  folder: string,
  stand: Stand,
  contents: Export,
  onStage: NonNullable<ExportHooks['onStage']>,
): Outcome<ExportReport> {
  onStage('locked');
  const problems: Problem[] = mend(stand) ? [mended(folder)] : [];
  const before = whatIsAt(stand.target);
  if (before === 'file' || before === 'other folder')
    return {
      value: undefined,
      problems: [...problems, before === 'file' ? isFile(folder) : notOurs(folder)],
    };
  try {
    const lying = before === 'export' ? readManifest(stand.target) : undefined;
    const { manifest, carried } = gather(stand, contents, lying, onStage);
    onStage('all written');
    swapIn(stand, onStage);
    const paths = carried.records.map((record) => record.path);
    const old = carried.records.filter((record) => record.stale);
    const stale = old.map((record) => record.path);
    return {
      value: { folder: stand.target, manifest, carried: paths, stale, kept: carried.kept },
      problems: [
        ...problems,
        ...carried.setAside.map(([from, to]) => changedByHand(folder, from, to)),
        ...(stale.length > 0 ? [contents.keep?.told(old, folder) ?? staleFiles(folder, stale)] : []),
      ],
    };
  } catch (error) {
    rmSync(stand.fresh, { recursive: true, force: true });
    throw error;
  }
}

/** Fills the new folder: what was built, what is carried over, and the manifest as the last thing. */
function gather(
  stand: Stand,
  contents: Export,
  old: Manifest | undefined,
  onStage: NonNullable<ExportHooks['onStage']>,
): { readonly manifest: Manifest; readonly carried: Carried } {
  mkdirSync(stand.fresh);
  const files: FileRecord[] = [];
  for (const { path: file, part, inputs, bytes } of contents.files) {
    const content = typeof bytes === 'string' ? Buffer.from(bytes) : bytes;
    mkdirSync(path.dirname(path.join(stand.fresh, file)), { recursive: true });
    writeFileSync(path.join(stand.fresh, file), content);
    files.push({ path: file, bytes: content.length, sha256: hashOf(content), part, inputs });
    onStage('half written');
  }
  const { partial, keep, partInputs } = contents;
  const carried: Carried = old
    ? carryOver(stand.target, stand.fresh, old, { files, partial, keep, partInputs })
    : { records: [], kept: [], setAside: [] };
  const { job, jobHash, sourceHash, versions, seed, whole } = contents;
  const measures = [...carriedMeasures(old, carried, contents.measures), ...contents.measures];
  const all = [...files, ...carried.records];
  const told = { ...(sourceHash === undefined ? {} : { sourceHash }), ...(whole ? { whole } : {}) };
  const manifest = { job, jobHash, versions, seed, files: all, measures, ...told };
  writeFileSync(path.join(stand.fresh, manifestName), manifestText(manifest));
  return { manifest, carried };
}

/** Earlier measures still hold for parts whose files were carried over, unless the same reader measured anew. */
function carriedMeasures(
  old: Manifest | undefined,
  carried: Carried,
  anew: readonly Measure[],
): readonly Measure[] {
  const parts = new Set(carried.records.map((record) => record.part));
  const again = new Set(anew.map((measure) => `${measure.part}\n${measure.reader}`));
  return (old?.measures ?? []).filter(
    (measure) => parts.has(measure.part) && !again.has(`${measure.part}\n${measure.reader}`),
  );
}

/** Where the folder really stands: a link to a folder is followed, so that the swap happens beside the folder. */
function realPlace(folder: string): string {
  try {
    return realpathSync(folder);
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw error;
    return path.resolve(folder);
  }
}
