import { readFileSync } from 'node:fs';
import { isError, Refusal, type Outcome, type Problem } from '../base/problems.js';
import type { CutList } from '../design/pieces/index.js';
import type { FieldOf, PrimaryStanding, RouteRecord, WithParts } from '../design/route/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import { readJob, type ReadJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import { familyNames, refuseUnknown } from './choices.js';
import { weldPlacesOf, type RouteRows } from './cut-list.js';
import { designParts, type WeldsOf } from './families.js';
import { routesOf, type JobRoutes } from './frozen-routes.js';
import type { JobOrder } from './job-order.js';
import { keepOutHashes } from './keep-out-hashes.js';
import { linesAsMade } from './lines-as-made.js';
import { noJobFile } from './no-job-file.js';
import { placeProblem } from './place-problem.js';
import { rackOf, rackTextOf } from './rack-file.js';

/** A job read and designed, with all that is to be told about it. No kernel, nothing written. */
export interface CheckedJob {
  readonly job: (Job & WithParts) | undefined;
  readonly source: string;
  /** The job alone, as a route record's jobHash is of it: its text, what was set, the files of its keep-outs. */
  readonly asked: string;
  /** The centre lines its parts were designed along. */
  readonly lines: CentreLines | undefined;
  readonly rows: RouteRows;
  /** Its routes, which tubes with pieces that came out otherwise have left; and the plan that says so. */
  readonly routed: Pick<JobRoutes, 'job' | 'lines' | 'rows'> | undefined;
  readonly plan: Outcome<CutList> | undefined;
  /** The record that the routes were frozen in. */
  readonly record: RouteRecord | undefined;
  readonly standings: readonly PrimaryStanding[];
  /** The distances to keep-outs that are files; undefined where there are none, or they could not be read. */
  readonly fieldOf: FieldOf | undefined;
  readonly designed: ReturnType<typeof designParts> | undefined;
  readonly problems: readonly Problem[];
  /** Finds a key in the job's text. */
  readonly locate: ReadJob['locate'];
}

/** Reads a job file, checks it and designs its parts. */
export async function checkJob(
  order: Pick<JobOrder, 'file' | 'shown' | 'set' | 'only'>,
): Promise<CheckedJob> {
  const absent = noJobFile(order.file, order.shown);
  if (absent !== undefined) throw new Refusal([absent]);
  if (order.only !== undefined) refuseUnknown(order.only, familyNames, '--only');
  const text = readFileSync(order.file, 'utf8');
  const { value: read, problems, locate } = readJob(text, { file: order.shown, set: order.set });
  const nothing = {
    lines: undefined,
    routed: undefined,
    plan: undefined,
    record: undefined,
    rows: new Map(),
    standings: [],
    fieldOf: undefined,
    designed: undefined,
  };
  if (read === undefined) return { ...nothing, job: read, source: text, asked: text, problems, locate };
  const solids = await keepOutFields(read, order.file);
  const routes = routesOf(read, order, solids.fieldOf);
  const { job, record } = routes;
  const made = await linesAsMade(routes, order, solids.fieldOf);
  const { lines, rows, standings, plan } = made;
  // Tubes that are not as routed depend on what they were cut from, too.
  const rackText = plan === undefined ? [] : [rackTextOf(job, order)];
  const hashes = keepOutHashes(job, order.file);
  const hashed = Object.keys(hashes).length > 0 ? [hashes] : [];
  const source = JSON.stringify([text, order.set, routes.text, ...hashed, ...rackText]);
  const asked = JSON.stringify([text, order.set, ...hashed]);
  const designed = designParts(job, lines, order.only, weldsOf(routes, order), routes.lines);
  const found = [...solids.problems, ...routes.problems, ...made.problems, ...designed.problems];
  const placed = found.map((problem) => placeProblem(problem, order.shown, locate));
  const { fieldOf } = solids;
  return {
    job,
    lines,
    rows,
    routed: routes,
    plan,
    record,
    standings,
    fieldOf,
    source,
    asked,
    designed,
    problems: [...problems, ...placed],
    locate,
  };
}

/** The keep-outs of a job that are files, read and ready to be measured to; nothing is loaded where there are none. */
async function keepOutFields(
  job: Job,
  file: string,
): Promise<{ readonly fieldOf: FieldOf | undefined; readonly problems: readonly Problem[] }> {
  if (job.keepOuts.every(({ shape }) => !('file' in shape))) return { fieldOf: undefined, problems: [] };
  const { readKeepOutFiles } = await import('./keep-out-files.js');
  const { fieldsOf } = await import('./keep-out-fields.js');
  const { meshes, problems } = await readKeepOutFiles(job, file);
  return { fieldOf: problems.some(isError) ? undefined : await fieldsOf(meshes), problems };
}

/** Where primaries may be welded, by the rack; undefined where no rack says. Faults of the rack are told with the cut list. */
export const weldsOf =
  (routed: CheckedJob['routed'], order: Pick<JobOrder, 'file' | 'shown'>): WeldsOf =>
  () => {
    const rack = routed && rackOf(routed.job, order.file, order.shown)?.value;
    return rack && weldPlacesOf(routed.job, rack, routed.lines, routed.rows);
  };
