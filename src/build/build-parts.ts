import { readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, Refusal, type Problem } from '../base/problems.js';
import type { Part } from '../design/parts.js';
import {
  hashOf,
  problemsOfMeasures,
  readManifest,
  stateOf,
  writeExport,
  type DxfOptions,
  type ExportFile,
  type FileRecord,
  type KeptParts,
  type Manifest,
  type Measure,
} from '../files/index.js';
import { formatsOf, type Format } from './formats.js';
import { makePart } from './make-part.js';
import { timed, type Watch } from './report.js';
import { versions } from './versions.js';

/** A file that belongs to no part. */
export interface ExtraFile {
  readonly path: string;
  /** What it is filed under: `routes`, `cut-list`. */
  readonly part: string;
  readonly bytes: string;
  /** How it measured when read back. */
  readonly measures?: readonly Measure[];
}

/** Parts to be made into files in one folder. */
export interface PartsOrder {
  /** Name of the job or script they belong to. */
  readonly name: string;
  /** The job alone, before any routes; where it is left out, the source is all there is. */
  readonly asked?: string;
  /** That the routes were found with. */
  readonly seed?: number | undefined;
  /** What the parts were designed from, hashed. */
  readonly source: string;
  /** Every part there is now; `chosen` are those to be made, the others only tell which files are stale. */
  readonly parts: readonly Part[];
  readonly chosen: readonly Part[];
  readonly formats: readonly Format[] | undefined;
  readonly folder: string;
  readonly dxf: DxfOptions;
  readonly printerBed: readonly [number, number, number];
  /** Records that belong to no part, such as the routes. */
  readonly extra: readonly ExtraFile[];
  /** Hash of what such records are made from, those not made this time too: tells which have gone stale. */
  readonly extraInputs: Readonly<Record<string, string>>;
  /** Parts that the job asks for and nobody can make now; what lies there of them stays. */
  readonly keep?: KeptParts | undefined;
  /** On a build of everything: see the manifest. */
  readonly whole: Manifest['whole'];
  readonly watch: Watch;
}

/** What stands in the folder after it. */
export interface PartsMade {
  readonly ok: boolean;
  readonly folder: string;
  readonly files: readonly FileRecord[];
  readonly reused: readonly string[];
  readonly measures: readonly Measure[];
  readonly problems: readonly Problem[];
}

/**
 * Makes what is not already there, measures it, and swaps the folder in whole. A part whose inputs and files
 * are unchanged is not made again; where nothing at all has changed, nothing is written.
 */
export async function buildParts(order: PartsOrder): Promise<PartsMade> {
  const { folder, watch } = order;
  const old = readManifest(folder);
  const inputs = new Map(order.parts.map((part) => [part.name, inputsOf(part, order)]));
  for (const [part, hash] of Object.entries(order.extraInputs)) inputs.set(part, hash);
  const files: ExportFile[] = order.extra.map(({ path, part, bytes }) => ({
    path,
    part,
    bytes,
    inputs: inputs.get(part) ?? '',
  }));
  const measures: Measure[] = order.extra.flatMap((file) => file.measures ?? []);
  const reused: string[] = [];
  for (const part of order.chosen) {
    const asked = formatsOf(part, order.formats);
    const hash = inputs.get(part.name) ?? '';
    const kept = old === undefined ? undefined : unchanged(folder, old, part, hash, asked);
    if (kept !== undefined) {
      files.push(...kept.files);
      measures.push(...kept.measures);
      reused.push(part.name);
      continue;
    }
    const kinds = asked.join(', ').toUpperCase();
    const made = await timed(watch, `${part.name}: ${kinds}`, () => makePart(part, asked, order));
    measures.push(...made.measures);
    files.push(...made.files.map((file) => ({ ...file, part: part.name, inputs: hash })));
  }
  const wrong = problemsOfMeasures(measures);
  if (wrong.length > 0) return { ok: false, folder, files: [], reused, measures, problems: wrong };
  const partial = order.formats !== undefined || order.chosen.length < order.parts.length;
  if (old !== undefined && nothingNew(folder, old, order, files, reused, partial))
    return { ok: true, folder, files: old.files, reused, measures: old.measures, problems: [] };
  const written = await timed(watch, 'write the folder', () =>
    writeExport(folder, {
      job: order.name,
      jobHash: hashOf(order.asked ?? order.source),
      sourceHash: hashOf(order.source),
      versions: versions(),
      seed: order.seed ?? 0,
      files,
      measures,
      partial,
      keep: order.keep,
      partInputs: Object.fromEntries(inputs),
      ...(partial || order.whole === undefined ? {} : { whole: order.whole }),
    }),
  );
  const { value, problems } = written;
  if (value === undefined || problems.some(isError)) throw new Refusal(problems);
  const { manifest } = value;
  return {
    ok: true,
    folder: value.folder,
    files: manifest.files,
    reused,
    measures: manifest.measures,
    problems,
  };
}

/** Hash of everything that shapes a part's files. */
function inputsOf(part: Part, order: PartsOrder): string {
  const how = part.kind === 'plate' ? order.dxf : order.printerBed;
  return hashOf(JSON.stringify([part, how, versions()]));
}

/** A part's files and measures as they lie in the folder, where they are what would be made again. */
function unchanged(
  folder: string,
  old: Manifest,
  part: Part,
  hash: string,
  asked: readonly Format[],
): { files: ExportFile[]; measures: Measure[] } | undefined {
  const records = asked.map((format) =>
    old.files.find(
      (file) => file.part === part.name && file.inputs === hash && file.path.endsWith(`.${format}`),
    ),
  );
  const files: ExportFile[] = [];
  for (const record of records) {
    if (record === undefined || stateOf(folder, record) !== 'good') return undefined;
    files.push({ ...record, bytes: readFileSync(path.join(folder, record.path)) });
  }
  return { files, measures: old.measures.filter((measure) => measure.part === part.name) };
}

/** Whether the folder already holds exactly what would be written. */
function nothingNew(
  folder: string,
  old: Manifest,
  order: PartsOrder,
  files: readonly ExportFile[],
  reused: readonly string[],
  partial: boolean,
): boolean {
  if (reused.length < order.chosen.length || old.sourceHash !== hashOf(order.source)) return false;
  if (!partial && old.whole?.from !== order.whole?.from) return false;
  // Records, such as the cut list, may be others though every part is as it was: the rack has changed.
  const lies = new Map(old.files.map((file) => [file.path, file.sha256]));
  if (files.some(({ path: name, bytes }) => lies.get(name) !== hashOf(bytes))) return false;
  if (partial) return old.files.every((file) => file.stale !== true);
  return old.files.length === files.length && old.files.every((file) => stateOf(folder, file) === 'good');
}
