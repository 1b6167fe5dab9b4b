import path from 'node:path';
import { isError, type Problem } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { distance3 } from '../base/vectors.js';
import {
  asRouted,
  isRoutable,
  checkRecord,
  HeadNotCleared,
  headNotCleared,
  linesOfRecord,
  readRouteRecord,
  rowsOfRecord,
  standingOf,
  standingProblems,
  type FieldOf,
  type PrimaryStanding,
  type RouteRecord,
  type RoutesFrom,
  type WithParts,
} from '../design/route/index.js';
import { checkLines, linesByHand, type CentreLines } from '../design/routes-by-hand.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { Job } from '../job/job.js';
import type { RouteRows } from './cut-list.js';
import type { JobOrder } from './job-order.js';
import { changedKeepOuts } from './keep-out-hashes.js';
import { placeProblem } from './place-problem.js';
import { routesName } from './routes-file.js';
import { textBeside } from './text-beside.js';

/** The centre lines that a job is built along, and where they come from. */
export interface JobRoutes {
  /** The job, its collector as the frozen routes have it, and what stands already of its primaries. */
  readonly job: Job & WithParts;
  readonly lines: CentreLines;
  readonly rows: RouteRows;
  /** The record and its text, where routes are frozen beside the job. */
  readonly record: RouteRecord | undefined;
  readonly text: string;
  /** How each primary stands among what surrounds it, measured anew. */
  readonly standings: readonly PrimaryStanding[];
  readonly problems: readonly Problem[];
}

/**
/**
 * The routes of a job: those frozen in routes.yaml beside it, unless the job gives all of them by hand, or
 * nothing is frozen. A record that does not belong to the job as it is now is never used: an error where parts
 * along the routes are asked for by name, else a warning, and the parts that need no routes are made.
 */
export function routesOf(job: Job, { file, shown, only }: RoutesOrder, fieldOf?: FieldOf): JobRoutes {
  const byHand = linesByHand(job);
  const frozen = path.join(path.dirname(file), routesName);
  const asked = only?.some((name) => alongRoutes.includes(name)) ?? false;
  const name = path.join(path.dirname(shown), routesName);
  const allByHand = byHand.size > 0 && byHand.size === job.ports.length;
  const text = allByHand ? undefined : textBeside(frozen, name);
  if (text === undefined) {
    const rows = new Map(Object.entries(job.primaries?.byHand ?? {}));
    const placeOf = (id: string): { path: string } => ({ path: `primaries.by_hand.${id}` });
    const stood = stand(job, byHand, { severity: 'warning', placeOf }, fieldOf);
    const open = byHand.size === 0 && isRoutable(job) && job.rack !== undefined;
    const problems = open ? [notRouted(shown)] : [...checkLines(job, byHand), ...stood.problems];
    return { job, lines: byHand, rows, record: undefined, text: '', standings: stood.standings, problems };
  }
  const read = readRouteRecord(text, name);
  const record = read.value;
  const none = { job, lines: new Map(), rows: new Map(), standings: [], text };
  if (record === undefined) return { ...none, record, problems: read.problems };
  const found = [...checkRecord(job, record, name), ...handRowsKept(job, record, name)];
  // What is wrong with the job itself is placed in the job's file by the caller.
  const placed = (problem: Problem): Problem =>
    problem.place?.file === name ? placeProblem(problem, name, read.locate) : problem;
  const fit = [...read.problems, ...found.map(placed)];
  if (fit.some(isError)) return { ...none, record: undefined, problems: asked ? fit : fit.map(leftOut) };
  const routed = asRouted(job, record);
  const lines = linesOfRecord(record);
  const indexOf = (id: string): number => record.primaries.findIndex((primary) => primary.id === id);
  const placeOf = (id: string): { file: string; path: string } => ({
    file: name,
    path: `primaries.${indexOf(id)}`,
  });
  // A flange alone may be made whatever stands in the tubes' way.
  const severity = only === undefined || asked ? 'error' : 'warning';
  const stood = stand(routed, lines, { severity, placeOf }, fieldOf);
  const rows = new Map(record.primaries.map((each) => [each.id, rowsOfRecord(each.rows)]));
  const problems = [...fit, ...stood.problems.map(placed), ...changedKeepOuts(job, record, file)];
  return { job: routed, lines, rows, record, text, standings: stood.standings, problems };
}

type RoutesOrder = Pick<JobOrder, 'file' | 'shown' | 'only'>;

/** A job without the keep-outs that are files, where these could not be read: that they could not is an error of its own. */
export const withoutUnread = (job: Job, fieldOf: FieldOf | undefined): Job =>
  fieldOf === undefined ? { ...job, keepOuts: job.keepOuts.filter(({ shape }) => !('file' in shape)) } : job;

/** How the lines stand, and what is wrong with that. */
function stand(
  job: Job,
  lines: CentreLines,
  from: RoutesFrom,
  fieldOf: FieldOf | undefined,
): { readonly standings: readonly PrimaryStanding[]; readonly problems: readonly Problem[] } {
  try {
    const standings = standingOf(withoutUnread(job, fieldOf), lines, fieldOf);
    return { standings, problems: standingProblems(standings, from) };
  } catch (reason) {
    if (!(reason instanceof HeadNotCleared)) throw reason;
    return { standings: [], problems: [headNotCleared(reason.ports)] };
  }
}

/** Whether primaries that the job gives by hand are in the record as the job has them. */
function handRowsKept(job: Job, record: RouteRecord, file: string): Problem[] {
  const byHand = linesByHand(job);
  const frozen = linesOfRecord(record);
  return record.primaries.flatMap(({ id, built }, i): Problem[] => {
    const [own, kept] = [byHand.get(id), frozen.get(id)];
    // Of one that is built up to a weld the record has the tail, which was found.
    if (own === undefined || kept === undefined || built !== undefined || sameLine(own, kept)) return [];
    return [
      {
        code: 'route/off-job',
        severity: 'error',
        what: `the job gives ${id} by hand, and the record has other rows for it`,
        why: 'the others were routed round a tube that is not the one to be built',
        fix: 'run `tackwright route` again for this job, or put the rows back',
        place: { file, path: `primaries.${i}.rows` },
      },
    ];
  });
}

/** Whether two centre lines run the same way, piece by piece. */
const sameLine = (a: CentreLine, b: CentreLine): boolean =>
  a.pieces.length === b.pieces.length &&
  a.pieces.every(({ to }, i) => distance3(to, b.pieces[i]?.to ?? [Infinity, 0, 0]) <= tolerance.file);

/** What is made along the routes, by the names that `--only` takes. */
export const alongRoutes: readonly string[] = ['cradle', 'primary', 'cut-list'];

const leftOut = (problem: Problem): Problem => ({
  ...problem,
  severity: 'warning',
  why: `${problem.why}: cradles, primaries and the cut list are left out`,
});

const notRouted = (shown: string): Problem => ({
  code: 'route/not-routed',
  severity: 'note',
  what: `the job can be routed, and has no ${routesName} beside it`,
  why: 'cradles, primaries and the cut list are made along the routes, so they are left out',
  fix: `run \`tackwright route ${shown}\`, then build again`,
  place: { file: shown },
});
