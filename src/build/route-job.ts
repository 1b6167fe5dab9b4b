import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { isError, type Problem } from '../base/problems.js';
import { isRoutable, type Effort, type RouteResult } from '../design/route/index.js';
import { hashOf } from '../files/index.js';
import { readJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import { readKeepOutFiles } from './keep-out-files.js';
import { keepOutHashes } from './keep-out-hashes.js';
import { placeProblem } from './place-problem.js';
import { rackOf } from './rack-file.js';
import { routeFailure } from './route-failure.js';
import { searchAside, type RouteProgress } from './route-search.js';
import { previousName, routesName, routesText } from './routes-file.js';

/** A job to be routed. */
export interface RouteOrder {
  readonly file: string;
  readonly shown: string;
  readonly set: readonly string[];
  readonly seed: number;
  readonly effort: Effort;
  /** Write the record as JSON here and leave the job's folder alone. */
  readonly record: string | undefined;
  readonly onProgress: (told: RouteProgress) => void;
  readonly onStop: (stop: () => void) => void;
}

/** What came of it. `result` is absent where the job could not even be searched. */
export interface Routed {
  readonly job: Job | undefined;
  readonly result: RouteResult | undefined;
  /** Where the record was written. */
  readonly written: string | undefined;
  /** Where an older record of other content was moved, so that nothing is lost. */
  readonly movedTo: string | undefined;
  readonly problems: readonly Problem[];
}

/** Reads a job and its rack, searches, and freezes the route found beside the job. */
export async function routeJobFile(order: RouteOrder): Promise<Routed> {
  const text = readFileSync(order.file, 'utf8');
  const read = readJob(text, { file: order.shown, set: order.set });
  const nothing = { result: undefined, written: undefined, movedTo: undefined };
  if (read.value === undefined) return { ...nothing, job: undefined, problems: read.problems };
  const job = read.value;
  const rack = rackOf(job, order.file, order.shown) ?? {
    value: undefined,
    problems: [lacking(order.shown, 'rack')],
  };
  const problems = [...read.problems, ...rack.problems];
  if (!isRoutable(job)) problems.push(lacking(order.shown));
  const files = await readKeepOutFiles(job, order.file);
  problems.push(...files.problems.map((each) => placeProblem(each, order.shown, read.locate)));
  if (rack.value === undefined || !isRoutable(job) || problems.some(isError))
    return { ...nothing, job, problems };
  const hashes = keepOutHashes(job, order.file);
  const withFiles = Object.keys(hashes).length > 0;
  const jobHash = hashOf(JSON.stringify([text, order.set, ...(withFiles ? [hashes] : [])]));
  const { meshes } = files;
  const search = { job, rack: rack.value, seed: order.seed, effort: order.effort, jobHash, meshes };
  const message = await searchAside(search, order.onProgress, order.onStop);
  if (!('result' in message)) {
    const heads = 'heads' in message ? message.heads : [];
    return { ...nothing, job, problems: [...problems, headNotCleared(heads, order.shown)] };
  }
  const { result } = message;
  problems.push(
    ...routeFailure(result, order.effort).map((each) => placeProblem(each, order.shown, read.locate)),
  );
  if (result.record === undefined) return { ...nothing, job, result, problems };
  const record = withFiles ? { ...result.record, keep_outs: hashes } : result.record;
  const target = order.record ?? path.join(path.dirname(order.file), routesName);
  const content = order.record === undefined ? routesText(record) : JSON.stringify(record, null, 2) + '\n';
  return {
    job,
    result,
    written: target,
    movedTo: freeze(target, content, order.record === undefined),
    problems,
  };
}

/** Writes beside the target first and renames; an older record of other content is kept under another name. */
function freeze(target: string, content: string, keepOld: boolean): string | undefined {
  let movedTo: string | undefined;
  if (keepOld && existsSync(target) && readFileSync(target, 'utf8') !== content) {
    movedTo = path.join(path.dirname(target), previousName);
    renameSync(target, movedTo);
  }
  writeFileSync(`${target}.tmp`, content);
  renameSync(`${target}.tmp`, target);
  return movedTo;
}

const lacking = (file: string, what = 'all of ports, tube, collector and length'): Problem => ({
  code: 'route/missing-section',
  severity: 'error',
  what: `the job does not give ${what}`,
  why: 'a route runs from a port to a slot of the collector, of a length, from bends on the rack',
  fix: 'add the missing sections, as in the demo job',
  place: { file },
});

const headNotCleared = (ports: readonly string[], file: string): Problem => ({
  code: 'route/head-not-cleared',
  severity: 'error',
  what: `the axis of ${ports.join(', ')} does not come clear of its own head`,
  why: 'the tube would run inside the head',
  fix: "measure the port's direction again, or draw the head's box back to its face",
  place: { file, path: 'ports' },
});
