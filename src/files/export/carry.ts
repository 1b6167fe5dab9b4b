import {
  copyFileSync,
  existsSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  symlinkSync,
  utimesSync,
} from 'node:fs';
import path from 'node:path';
import type { Problem } from '../../base/problems.js';
import { hashOf, manifestName, stateOf, type FileRecord, type Manifest } from '../manifest.js';

/** What became of the files of the folder before. */
export interface Carried {
  /** Ours, not made anew: they keep their record, with or without the mark of being stale. */
  readonly records: readonly FileRecord[];
  /** Not ours: dropped there by hand. */
  readonly kept: readonly string[];
  /** Ours once, changed by hand and now made anew: the changed one stands under the second name. */
  readonly setAside: readonly (readonly [from: string, to: string])[];
}

/** Parts that a build could not make, though the job asks for them: what lies there of them is not lost. */
export interface KeptParts {
  /** Whether a part is one of them, by the name its files are filed under. */
  readonly of: (part: string) => boolean;
  /** What the user is told of the files that no longer match the job. */
  readonly told: (stale: readonly FileRecord[], folder: string) => Problem;
}

/** What the new folder is to hold. */
export interface Wanted {
  /** New files: path, part, hash. */
  readonly files: readonly FileRecord[];
  /** Whether the files of other parts and formats are carried over. */
  readonly partial: boolean;
  /** Of a build of everything: parts it could not make, whose files are carried over all the same. */
  readonly keep?: KeptParts | undefined;
  /** Hash of the inputs of each part as the job stands now. */
  readonly partInputs: Readonly<Record<string, string>>;
}

/**
 * Brings over what must not be lost from the folder before into the new one, by hard link where the disk
 * can, else by copying. Nothing in the old folder is changed.
 *
 * A file of ours is superseded by a new one of the same part and ending, though its name may differ: a flange
 * that has grown has another size in its name, and the old one must not lie beside it.
 */
export function carryOver(from: string, to: string, manifest: Manifest | undefined, wanted: Wanted): Carried {
  const ours = new Map(manifest?.files.map((record) => [record.path, record]));
  const fresh = new Map(wanted.files.map((record) => [record.path, record]));
  const kinds = new Set(wanted.files.map(kindOf));
  const records: FileRecord[] = [];
  const kept: string[] = [];
  const setAside: (readonly [string, string])[] = [];

  for (const file of filesIn(from)) {
    if (file === manifestName) continue;
    const record = ours.get(file);
    const replacement = fresh.get(file);
    const stays = record && (wanted.partial || wanted.keep?.of(record.part) === true);
    const carried = stays && !replacement && !kinds.has(kindOf(record));
    if (carried) {
      bring(from, file, to, file);
      const { path, bytes, sha256, part, inputs } = record;
      const fits = wanted.partInputs[part] === inputs;
      records.push({ path, bytes, sha256, part, inputs, ...(fits ? {} : { stale: true }) });
    } else if (!record && !replacement) {
      bring(from, file, to, file);
      kept.push(file);
    } else if (!(record && stateOf(from, record) === 'good') && !sameAs(from, file, replacement)) {
      const name = freeName(
        file,
        (tried) => existsSync(path.join(from, tried)) || existsSync(path.join(to, tried)),
      );
      bring(from, file, to, name);
      setAside.push([file, name]);
    }
  }
  return { records, kept, setAside };
}

const kindOf = (record: FileRecord): string => `${record.part}\n${path.extname(record.path)}`;

/** Whether a file already has the bytes of the one that will replace it. */
const sameAs = (folder: string, file: string, replacement: FileRecord | undefined): boolean =>
  replacement !== undefined && hashOf(readFileSync(path.join(folder, file))) === replacement.sha256;

/** `flange.dxf` -> `flange.by-hand.dxf`. */
export function byHandName(file: string): string {
  const ending = path.extname(file);
  return `${file.slice(0, file.length - ending.length)}.by-hand${ending}`;
}

function freeName(file: string, taken: (name: string) => boolean): string {
  let name = byHandName(file);
  while (taken(name)) name = byHandName(name);
  return name;
}

/** Every file below a folder, with forward slashes, in order of name; links are not followed. */
export function filesIn(folder: string, below = ''): readonly string[] {
  return readdirSync(path.join(folder, below), { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const file = below === '' ? entry.name : `${below}/${entry.name}`;
      return entry.isDirectory() ? filesIn(folder, file) : [file];
    });
}

function bring(from: string, file: string, to: string, name: string): void {
  const [source, goal] = [path.join(from, file), path.join(to, name)];
  mkdirSync(path.dirname(goal), { recursive: true });
  const facts = lstatSync(source);
  if (facts.isSymbolicLink()) {
    symlinkSync(readlinkSync(source), goal);
    return;
  }
  try {
    linkSync(source, goal);
  } catch {
    // Some disks and shares have no hard links.
    copyFileSync(source, goal);
    utimesSync(goal, facts.atime, facts.mtime);
  }
}
