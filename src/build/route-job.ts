import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { isError, type Outcome, type Problem } from '../base/problems.js';
import {
  asRouted,
  changesBetween,
  headNotCleared,
  isRoutable,
  linesOfRecord,
  readRouteRecord,
  standingOf,
  whatStays,
  type Effort,
  type FieldOf,
  type PrimaryStanding,
  type RouteChange,
  type RouteRecord,
  type RouteResult,
} from '../design/route/index.js';
import { hashOf, problemFromDisk } from '../files/index.js';
import { readJob, type Rack } from '../job/index.js';
import type { Job } from '../job/job.js';
import { refuseUnknown } from './choices.js';
import { fieldsOf } from './keep-out-fields.js';
import { readKeepOutFiles } from './keep-out-files.js';
import { keepOutHashes } from './keep-out-hashes.js';
import { placeProblem } from './place-problem.js';
import { rackOf } from './rack-file.js';
import { routeFailure } from './route-failure.js';
import { cannotBeCut } from './routed-cuts.js';
import { lacking, missingOf, nothingToBend } from './route-lacking.js';
import { textBeside } from './text-beside.js';
import { searchAside, type RouteProgress } from './route-search.js';
import { previousName, routesName, routesText } from './routes-file.js';

/** A job to be routed. */
export interface RouteOrder {
  readonly file: string;
  readonly shown: string;
  readonly set: readonly string[];
  /** Primaries to be routed, the others left as they are frozen; undefined: all that do not stand. */
  readonly only: readonly string[] | undefined;
  readonly seed: number;
  readonly effort: Effort;
  /** How many threads search. */
  readonly threads: number;
  /** Write the record as JSON here and leave the job's folder alone. */
  readonly record: string | undefined;
  readonly onProgress: (told: RouteProgress) => void;
  readonly onStop: (stop: () => void) => void;
}

/** What came of it. `result` is absent where the job could not even be searched. */
export interface Routed {
  readonly job: Job | undefined;
  readonly result: RouteResult | undefined;
  /** How the primaries stand, measured anew on the rows as written. */
  readonly standings: readonly PrimaryStanding[];
  /** The distances to keep-outs that are files. */
  readonly fieldOf: FieldOf | undefined;
  /** What changed against the record of before, where there was one of other routes. */
  readonly changes: readonly RouteChange[];
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
  const nothing = {
    result: undefined,
    standings: [],
    changes: [],
    fieldOf: undefined,
    written: undefined,
    movedTo: undefined,
  };
  if (read.value === undefined) return { ...nothing, job: undefined, problems: read.problems };
  const job = read.value;
  const given = rackOf(job, order.file, order.shown);
  const rack = given ?? { value: undefined, problems: [] };
  const problems = [...read.problems, ...rack.problems];
  const missing = missingOf(job, given !== undefined);
  if (missing.length > 0) problems.push(lacking(order.shown, missing));
  problems.push(...nothingToBend(rack.value));
  const files = await readKeepOutFiles(job, order.file);
  problems.push(...files.problems.map((each) => placeProblem(each, order.shown, read.locate)));
  if (rack.value === undefined || !isRoutable(job) || problems.some(isError))
    return { ...nothing, job, problems };
  if (order.only !== undefined)
    refuseUnknown(
      order.only,
      job.ports.map(({ id }) => id),
      '--only',
    );
  const keeps = order.only !== undefined || Object.keys(job.primaries.built).length > 0;
  const frozen = frozenBeside(order);
  if (keeps) problems.push(...frozen.problems);
  const stays = keeps ? whatStays(job, frozen.value, order.only) : undefined;
  problems.push(...(stays?.problems ?? []).map((each) => placeProblem(each, order.shown, read.locate)));
  if (problems.some(isError)) return { ...nothing, job, problems };
  const toRoute = stays?.value?.job ?? job;
  const hashes = keepOutHashes(job, order.file);
  const withFiles = Object.keys(hashes).length > 0;
  const jobHash = hashOf(JSON.stringify([text, order.set, ...(withFiles ? [hashes] : [])]));
  const { meshes } = files;
  const { seed, effort, threads } = order;
  const search = { job: toRoute, rack: rack.value, seed, effort, threads, jobHash, meshes };
  const message = await searchAside(search, order.onProgress, order.onStop);
  if (!('result' in message)) {
    const heads = 'heads' in message ? message.heads : [];
    return {
      ...nothing,
      job,
      problems: [...problems, placeProblem(headNotCleared(heads), order.shown, read.locate)],
    };
  }
  const { result } = message;
  problems.push(
    ...routeFailure(result, order.effort).map((each) => placeProblem(each, order.shown, read.locate)),
  );
  if (result.record === undefined) return { ...nothing, job, result, problems };
  if (order.record === undefined && job.ports.every(({ id }) => job.primaries.byHand[id] !== undefined))
    problems.push(placeProblem(handStays, order.shown, read.locate));
  const record = withFiles ? { ...result.record, keep_outs: hashes } : result.record;
  const target = order.record ?? path.join(path.dirname(order.file), routesName);
  const content =
    order.record === undefined ? routesText(record, result.rounding) : JSON.stringify(record, null, 2) + '\n';
  const fieldOf = await fieldsOf(meshes);
  let movedTo: string | undefined;
  try {
    movedTo = freeze(target, content, order.record === undefined);
  } catch (reason) {
    return { ...nothing, job, problems: [...problems, problemFromDisk(reason, path.dirname(target))] };
  }
  problems.push(...(await cannotBeCut(job, rack.value, record, order, read.locate, order.record)));
  return {
    job,
    result,
    standings: standingOf(asRouted(job, result.record), linesOfRecord(result.record), fieldOf),
    fieldOf,
    changes: changed(frozen.value, result.record, rack.value),
    written: target,
    movedTo,
    problems,
  };
}

/** The record frozen beside the job, where there is one. */
function frozenBeside({ file, shown }: RouteOrder): Outcome<RouteRecord> {
  const name = path.join(path.dirname(shown), routesName);
  const text = textBeside(path.join(path.dirname(file), routesName), name);
  return text === undefined ? { value: undefined, problems: [] } : readRouteRecord(text, name);
}

/** What changed against the record of before; nothing where there was none, or it was the same. */
function changed(before: RouteRecord | undefined, after: RouteRecord, rack: Rack): readonly RouteChange[] {
  if (before === undefined) return [];
  const changes = changesBetween(before, after, rack);
  return changes.every(({ sameFor }) => sameFor === Infinity) ? [] : changes;
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

const handStays: Problem = {
  code: 'route/by-hand-stays',
  severity: 'warning',
  what: 'every primary has rows by hand, and a build takes those, not the routes just found',
  why: 'you would cut tubes other than the ones told here',
  fix: 'take out primaries.by_hand, or the rows of those primaries that are to be routed',
  place: { path: 'primaries.by_hand' },
};
