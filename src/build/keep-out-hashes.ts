import { existsSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import type { Problem } from '../base/problems.js';
import type { RouteRecord } from '../design/route/index.js';
import { hashOf } from '../files/index.js';
import type { Job } from '../job/job.js';

/** Hash of a file's content; empty where there is no such file. */
const hashOfFile = (place: string): string =>
  existsSync(place) && statSync(place).isFile() ? hashOf(readFileSync(place)) : '';

/** Hashes of the files that a job's keep-outs are given as, by the name that the job gives. */
export function keepOutHashes(job: Job, file: string): Readonly<Record<string, string>> {
  const names = job.keepOuts.flatMap(({ shape }) => ('file' in shape ? [shape.file] : []));
  return Object.fromEntries(
    [...new Set(names)].map((name) => [name, hashOfFile(path.resolve(path.dirname(file), name))]),
  );
}

/**
 * The same found in the bare text of a job, without reading it as one; undefined where it cannot be told from
 * the text which files there are.
 */
export function hashesInText(
  text: string,
  set: readonly string[],
  file: string,
): readonly string[] | undefined {
  const keys = text.match(/\b(?:mesh|step)["']? *:/g) ?? [];
  const named = [
    ...text.matchAll(/\b(?:mesh|step)["']? *: *(?:"([^"\n]+)"|'([^'\n]+)'|([^\s"'{[][^,}\n#]*))/g),
  ];
  if (named.length !== keys.length || set.some((one) => /\b(?:mesh|step)\b/.test(one))) return undefined;
  return named.map(([, double, single, bare]) =>
    hashOfFile(path.resolve(path.dirname(file), (double ?? single ?? bare ?? '').trim())),
  );
}

/** Says which keep-out files are not those that a record was found clear of. */
export function changedKeepOuts(job: Job, record: RouteRecord, file: string): readonly Problem[] {
  const now = keepOutHashes(job, file);
  return job.keepOuts.flatMap(({ name, path: key, shape }): Problem[] => {
    if (!('file' in shape)) return [];
    const before = record.keep_outs?.[shape.file];
    if (before !== undefined && before === now[shape.file]) return [];
    const found =
      now[shape.file] === ''
        ? 'is not there now'
        : before === undefined
          ? 'was not looked at when the routes were frozen'
          : 'has changed since the routes were frozen';
    return [
      {
        code: 'keep-out/changed',
        severity: 'warning',
        what: `${name} (${shape.file}) ${found}`,
        why: 'nothing says that the tubes are clear of it',
        fix: 'run `tackwright route` again for this job: 1 command',
        place: { path: `${key}.${shape.kind}` },
      },
    ];
  });
}
