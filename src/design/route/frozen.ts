import { radians, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { distance3, dot3 } from '../../base/vectors.js';
import { centreLineOf, type CentreLineRow } from '../../geom/centre-line.js';
import type { Job } from '../../job/job.js';
import { checkLines, primaryStart, type CentreLines } from '../routes-by-hand.js';
import type { RecordRow, RouteRecord } from './record.js';

/** The rows of a record as geometry takes them: rad instead of degrees. */
export const rowsOfRecord = (rows: readonly RecordRow[]): readonly CentreLineRow[] =>
  rows.map((row) =>
    'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) },
  );

/** The centre lines of a record, marched from the starts it gives. */
export const linesOfRecord = (record: RouteRecord): CentreLines =>
  new Map(
    record.primaries.map(({ id, start, rows }) => [
      id,
      centreLineOf(
        { at: start.at, direction: start.direction, clockReference: start.clock_reference },
        rowsOfRecord(rows),
      ),
    ]),
  );

/**
 * Whether a frozen record still belongs to the job: every primary starts where the job's port now stands,
 * and its march ends where the record says. Whether it meets its slot, and the lengths, are judged as for
 * routes by hand.
 */
export function checkRecord(job: Job, record: RouteRecord, file: string): readonly Problem[] {
  const problems: Problem[] = [];
  const lines = linesOfRecord(record);
  const off = (path: string, what: string): void => {
    problems.push({
      code: 'route/off-job',
      severity: 'error',
      what,
      why: 'tubes cut from it would not meet the head or the collector',
      fix: 'run `tackwright route` again for this job, or set the job back to what it was',
      place: { file, path },
    });
  };
  record.primaries.forEach(({ id, start, end }, i) => {
    const port = job.ports.find((each) => each.id === id);
    if (port === undefined) {
      off(`primaries.${i}.id`, `the record has a primary ${id}, the job has no such port`);
      return;
    }
    const now = primaryStart(port, job.flange?.thickness ?? 0);
    const moved = distance3(now.at, start.at);
    if (moved > tolerance.file || dot3(now.direction, start.direction) < 1 - tolerance.samePoint)
      off(
        `primaries.${i}.start`,
        `${id} starts ${tidy(moved, 3)} mm from where its port now stands, or leans otherwise`,
      );
    const reached = lines.get(id)?.end.at ?? start.at;
    const miss = distance3(reached, end.at);
    if (miss > tolerance.file)
      off(
        `primaries.${i}.end`,
        `the rows of ${id} end ${tidy(miss, 3)} mm from the end that the record gives`,
      );
  });
  return problems.length > 0 ? problems : checkLines(asRouted(job, record), lines);
}

/** The job with the collector where the record has it, for the router may have turned or moved it. */
export function asRouted(job: Job, { collector }: RouteRecord): Job {
  if (job.collector === undefined) return job;
  return {
    ...job,
    collector: {
      ...job.collector,
      at: collector.at,
      flow: collector.flow,
      clocking: radians(collector.clocking),
    },
  };
}
