import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, type Problem } from '../base/problems.js';
import {
  asRouted,
  checkRecord,
  linesOfRecord,
  rowsOfRecord,
  readRouteRecord,
  type RouteRecord,
} from '../design/route/index.js';
import { checkLines, linesByHand, type CentreLines } from '../design/routes-by-hand.js';
import type { Job } from '../job/job.js';
import type { RouteRows } from './cut-list.js';
import { changedKeepOuts } from './keep-out-hashes.js';
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
 * that does not belong to the job as it is now is an error, never used in silence.
 */
export function routesOf(job: Job, file: string, shown: string): JobRoutes {
  const byHand = linesByHand(job);
  const frozen = path.join(path.dirname(file), routesName);
  if (byHand.size > 0 || !existsSync(frozen))
    return {
      job,
      lines: byHand,
      rows: new Map(Object.entries(job.primaries?.byHand ?? {})),
      record: undefined,
      text: '',
      problems: checkLines(job, byHand),
    };
  const text = readFileSync(frozen, 'utf8');
  const name = path.join(path.dirname(shown), routesName);
  const { value: record, problems } = readRouteRecord(text, name);
  if (record === undefined) return { job, lines: new Map(), rows: new Map(), record, text, problems };
  const fit = checkRecord(job, record, name);
  const changed = changedKeepOuts(job, record, file);
  const lines = fit.some(isError) ? new Map() : linesOfRecord(record);
  const rows = new Map(record.primaries.map((each) => [each.id, rowsOfRecord(each.rows)]));
  return {
    job: asRouted(job, record),
    lines,
    rows,
    record,
    text,
    problems: [...problems, ...fit, ...changed],
  };
}
