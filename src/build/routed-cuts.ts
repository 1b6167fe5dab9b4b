import { isError, type Problem } from '../base/problems.js';
import { planPieces } from '../design/pieces/index.js';
import { asRouted, linesOfRecord, rowsOfRecord, type RouteRecord } from '../design/route/index.js';
import type { Rack, ReadJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import { inRecord } from './cut-list-of-job.js';
import { routesToCut } from './cut-list.js';
import type { JobOrder } from './job-order.js';
import { placeProblem } from './place-problem.js';
import { openSolver } from './solver.js';

/**
 * What keeps routes just found from being cut, as warnings: a search counts welds as if they might stand
 * anywhere, and wrench room, cradles by hand or sleeves may leave no place for one.
 * @param record written beside the job already, so that its lines can be named; or elsewhere, at `elsewhere`
 * @param locate finds a key in the job's text
 */
export async function cannotBeCut(
  job: Job,
  rack: Rack,
  record: RouteRecord,
  order: Pick<JobOrder, 'file' | 'shown'>,
  locate: ReadJob['locate'],
  elsewhere: string | undefined,
): Promise<readonly Problem[]> {
  // Corrections speak of the pieces of other routes.
  const routed = { ...asRouted(job, record), asCut: {} };
  const rows = new Map(record.primaries.map(({ id, rows }) => [id, rowsOfRecord(rows)]));
  const routes = routesToCut(routed, linesOfRecord(record), rows);
  const quick = planPieces(routed, routes, rack).problems.filter(isError);
  if (quick.length === 0) return [];
  // Stock chosen quickly may give out where a plan of more welds, or of other stock, does not.
  const { problems } = planPieces(routed, routes, rack, { solve: await openSolver() });
  const placed = (problem: Problem): Problem =>
    elsewhere === undefined
      ? placeProblem(inRecord(problem, { job, record }, order), order.shown, locate)
      : { ...problem, place: { file: elsewhere } };
  return problems.filter(isError).map((problem) => ({
    ...placed(problem),
    severity: 'warning',
    why: `${problem.why}: this route cannot be cut as it is`,
  }));
}
