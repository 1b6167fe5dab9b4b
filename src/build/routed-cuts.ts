import { isError, type Problem } from '../base/problems.js';
import { planPieces } from '../design/pieces/index.js';
import { asRouted, linesOfRecord, rowsOfRecord, type RouteRecord } from '../design/route/index.js';
import type { Rack } from '../job/index.js';
import type { Job } from '../job/job.js';
import { inRecord } from './cut-list-of-job.js';
import { routesToCut } from './cut-list.js';
import type { JobOrder } from './job-order.js';

/**
 * What keeps routes just found from being cut, as warnings: a search counts welds as if they might stand
 * anywhere, and wrench room, cradles by hand or sleeves may leave no place for one.
 * @param record written beside the job already, so that its lines can be named
 */
export function cannotBeCut(
  job: Job,
  rack: Rack,
  record: RouteRecord,
  order: Pick<JobOrder, 'file' | 'shown'>,
): readonly Problem[] {
  // Corrections speak of the pieces of other routes.
  const routed = { ...asRouted(job, record), asCut: {} };
  const rows = new Map(record.primaries.map(({ id, rows }) => [id, rowsOfRecord(rows)]));
  const { problems } = planPieces(routed, routesToCut(routed, linesOfRecord(record), rows), rack);
  return problems.filter(isError).map((problem) => ({
    ...inRecord(problem, { job, record }, order),
    severity: 'warning',
    why: `${problem.why}: this route cannot be cut as it is`,
  }));
}
