import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, type Problem } from '../base/problems.js';
import {
  asRouted,
  isRoutable,
  checkRecord,
  linesOfRecord,
  rowsOfRecord,
  readRouteRecord,
  type RouteRecord,
} from '../design/route/index.js';
import { checkLines, linesByHand, type CentreLines } from '../design/routes-by-hand.js';
import type { Job } from '../job/job.js';
import type { RouteRows } from './cut-list.js';
import { routesName } from './routes-file.js';

/** The centre lines that a job is built along, and where they come from. */
export interface JobRoutes {
  /** The job, its collector as the frozen routes have it. */
  readonly job: Job;
  readonly lines: CentreLines;
  readonly rows: RouteRows;
  /** The record and its text, where routes are frozen beside the job. */
  readonly record: RouteRecord | undefined;
  readonly text: string;
  readonly problems: readonly Problem[];
}

/**
 * The routes of a job: those by hand in the job file; else those frozen in routes.yaml beside it. A record
 * that does not belong to the job as it is now is never used: an error where parts along the routes are asked
 * for by name, else a warning, and the parts that need no routes are made.
 */
export function routesOf(
  job: Job,
  file: string,
  shown: string,
  only: readonly string[] | undefined,
): JobRoutes {
  const byHand = linesByHand(job);
  const frozen = path.join(path.dirname(file), routesName);
  if (byHand.size > 0 || !existsSync(frozen))
    return {
      job,
      lines: byHand,
      rows: new Map(Object.entries(job.primaries?.byHand ?? {})),
      record: undefined,
      text: '',
      problems:
        byHand.size === 0 && isRoutable(job) && job.rack !== undefined
          ? [notRouted(shown)]
          : checkLines(job, byHand),
    };
  const text = readFileSync(frozen, 'utf8');
  const name = path.join(path.dirname(shown), routesName);
  const { value: record, problems } = readRouteRecord(text, name);
  const none = { job, lines: new Map(), rows: new Map() };
  if (record === undefined) return { ...none, record, text, problems };
  const fit = checkRecord(job, record, name);
  if (fit.some(isError)) {
    const asked = only?.some((name) => alongRoutes.includes(name)) ?? false;
    const told = asked ? fit : fit.map(leftOut);
    return { ...none, record: undefined, text, problems: [...problems, ...told] };
  }
  const lines = linesOfRecord(record);
  const rows = new Map(record.primaries.map((each) => [each.id, rowsOfRecord(each.rows)]));
  return { job: asRouted(job, record), lines, rows, record, text, problems: [...problems, ...fit] };
}

/** What is made along the routes, by the names that `--only` takes. */
const alongRoutes: readonly string[] = ['cradle', 'primary', 'cut-list'];

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
