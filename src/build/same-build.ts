import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { hashOf, readManifest, verifyManifest } from '../files/index.js';
import type { JobOrder } from './job-order.js';
import { hashesInText } from './keep-out-hashes.js';
import type { BuildReport } from './report.js';
import { noJobFile } from './no-job-file.js';
import { routesName } from './routes-file.js';
import { textOrNothing } from './text-beside.js';
import { versions } from './versions.js';

/** What a job's text gives for its rack, quoted or not. A quick look: the job is not read for it. */
const rackIn = (text: string): string | undefined =>
  /^rack: *(?:"([^"]*)"|'([^']*)'|([^\s#]+))/m
    .exec(text)
    ?.slice(1)
    .find((name) => name !== undefined);

/** Hash of everything that a build of the whole job is made from. */
export function wholeFrom(order: Pick<JobOrder, 'file' | 'shown' | 'set' | 'dxf'>): string {
  const beside = (name: string): string => path.resolve(path.dirname(order.file), name);
  const text = existsSync(order.file) ? readFileSync(order.file, 'utf8') : '';
  const rack = rackIn(text);
  const keepOuts = hashesInText(text, order.set, order.file) ?? [];
  const texts = [order.file, beside(routesName), beside(rack ?? routesName)].map((file) =>
    textOrNothing(file),
  );
  return hashOf(JSON.stringify([texts, keepOuts, order.shown, order.set, order.dxf, versions()]));
}

/**
 * The report of a build whose every file lies there already, unchanged, made from the very same job: known
 * without reading the job or designing anything. Undefined where there is anything to do.
 */
export function sameBuild(order: JobOrder): BuildReport | undefined {
  if (order.only !== undefined || order.formats !== undefined) return undefined;
  if (noJobFile(order.file, order.shown) !== undefined) return undefined;
  const text = readFileSync(order.file, 'utf8');
  const name = /^job: *([\w-]+)/m.exec(text)?.[1];
  if (name === undefined || hashesInText(text, order.set, order.file) === undefined) return undefined;
  // A rack that is not seen at a glance may have changed unseen.
  const rack = rackIn(text);
  const seen =
    rack === undefined ? !/\brack\b/.test(text) : existsSync(path.resolve(path.dirname(order.file), rack));
  if (!seen || order.set.some((value) => value.startsWith('rack'))) return undefined;
  const folder = order.folder ?? path.join(order.root, 'exports', name);
  const manifest = readManifest(folder);
  if (manifest?.whole?.from !== wholeFrom(order) || manifest.whole === undefined) return undefined;
  if (verifyManifest(folder)?.every(({ state, stale }) => state === 'good' && !stale) !== true)
    return undefined;
  const { files, measures, whole } = manifest;
  const reused = [...new Set(files.map((file) => file.part))];
  return {
    ok: true,
    name,
    folder,
    job: undefined,
    cutList: undefined,
    parts: [],
    files,
    reused,
    measures,
    problems: whole.told,
  };
}
