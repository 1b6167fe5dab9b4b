import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, Refusal, type Problem } from '../base/problems.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import type { RouteRecord } from '../design/route/index.js';
import { readManifest } from '../files/index.js';
import { readJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import { buildParts } from './build-parts.js';
import { familyNames, refuseUnknown } from './choices.js';
import type { JobOrder } from './job-order.js';
import { designParts } from './families.js';
import { routesOf } from './frozen-routes.js';
import { placeProblem } from './place-problem.js';
import { sameBuild, wholeFrom } from './same-build.js';
import { timed, type BuildReport } from './report.js';

/** A job read and designed, with all that is to be told about it. No kernel, nothing written. */
export interface CheckedJob {
  readonly job: Job | undefined;
  readonly source: string;
  /** The centre lines its parts were designed along, and the record they were frozen in. */
  readonly lines: CentreLines | undefined;
  readonly record: RouteRecord | undefined;
  readonly designed: ReturnType<typeof designParts> | undefined;
  readonly problems: readonly Problem[];
}

/** The bed assumed where the job names no printer: a common small one (common practice, no source). */
const USUAL_BED = [220, 220, 250] as const;

/** Reads a job file, checks it and designs its parts. */
export function checkJob(order: Pick<JobOrder, 'file' | 'shown' | 'set' | 'only'>): CheckedJob {
  if (!existsSync(order.file)) throw new Refusal([noFile(order.shown)]);
  if (order.only !== undefined) refuseUnknown(order.only, familyNames, '--only');
  const text = readFileSync(order.file, 'utf8');
  const { value: read, problems, locate } = readJob(text, { file: order.shown, set: order.set });
  const nothing = { lines: undefined, record: undefined, designed: undefined };
  if (read === undefined) return { ...nothing, job: read, source: text, problems };
  const routes = routesOf(read, order.file, order.shown);
  const { job, lines, record } = routes;
  const source = JSON.stringify([text, order.set, routes.text]);
  const designed = designParts(job, lines, order.only);
  const found = [...routes.problems, ...designed.problems];
  const placed = found.map((problem) => placeProblem(problem, order.shown, locate));
  return { job, lines, record, source, designed, problems: [...problems, ...placed] };
}

/** Builds a job: reads, designs, makes, measures, writes. */
export async function buildJob(order: JobOrder): Promise<BuildReport> {
  const same = order.brief ? sameBuild(order) : undefined;
  if (same !== undefined) return same;
  const checked = await timed(order, 'read and design', () => checkJob(order));
  const { job, lines, designed, record, problems } = checked;
  const name = job?.name ?? '';
  const folder = order.folder ?? path.join(order.root, 'exports', name);
  if (job === undefined || lines === undefined || designed === undefined || problems.some(isError)) {
    return { ok: false, name, folder, job, parts: [], files: [], reused: [], measures: [], problems };
  }
  // The other parts are designed only where files of theirs may have gone stale.
  const lying = order.only === undefined ? undefined : readManifest(folder);
  const others = lying === undefined ? [] : designParts(job, lines, undefined).parts;
  const made = await buildParts({
    name,
    source: checked.source,
    parts: [...designed.parts, ...others.filter((part) => !designed.made.includes(part.family))],
    chosen: designed.parts,
    formats: order.formats,
    folder,
    dxf: order.dxf,
    printerBed: job.tackFixture?.printerBed ?? USUAL_BED,
    whole: order.only === undefined ? { from: wholeFrom(order), told: problems } : undefined,
    extra: record === undefined ? [] : [routesJson(record)],
    watch: order,
  });
  return { ...made, name, job, parts: designed.parts, problems: [...problems, ...made.problems] };
}

/** The route record among the exports, for others to check. */
const routesJson = (record: RouteRecord): { path: string; part: string; bytes: string } => ({
  path: 'routes.json',
  part: 'routes',
  bytes: JSON.stringify(record, null, 2) + '\n',
});

const noFile = (shown: string): Problem => ({
  code: 'build/no-file',
  severity: 'error',
  what: `there is no file ${shown}`,
  why: 'there is no job to read',
  fix: 'give the path of a job file, such as fixtures/hillclimb-four/job.yaml, or make one with `tackwright new`',
  place: { file: shown },
});
