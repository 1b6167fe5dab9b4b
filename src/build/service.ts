import { readFileSync } from 'node:fs';
import type { Problem } from '../base/problems.js';
import {
  asRouted,
  linesOfRecord,
  wholeLines,
  type FieldOf,
  type RouteRecord,
  type WithParts,
} from '../design/route/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import { serviceOf, type Service } from '../design/service/index.js';
import { readJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import type { JobOrder } from './job-order.js';
import { placeProblem } from './place-problem.js';

/** How a header goes on and comes off, with its problems placed in the job file. */
export interface CheckedService {
  readonly service: Service | undefined;
  readonly problems: readonly Problem[];
}

/** Of a job with routes; nothing where it has none. */
export function serviceOfJob(
  { job, lines }: { readonly job: (Job & WithParts) | undefined; readonly lines: CentreLines | undefined },
  { file, shown }: Pick<JobOrder, 'file' | 'shown'>,
  fieldOf?: FieldOf,
): CheckedService {
  if (job === undefined || lines === undefined) return { service: undefined, problems: [] };
  const { value: service, problems } = serviceOf(job, wholeLines(job, lines), fieldOf);
  if (problems.length === 0) return { service, problems };
  const { locate } = readJob(readFileSync(file, 'utf8'), { file: shown });
  return { service, problems: problems.map((problem) => placeProblem(problem, shown, locate)) };
}

/** Of routes just found. */
export const serviceOfRoute = (
  job: Job,
  record: RouteRecord,
  order: Pick<JobOrder, 'file' | 'shown'>,
  fieldOf?: FieldOf,
): CheckedService =>
  serviceOfJob({ job: asRouted(job, record), lines: linesOfRecord(record) }, order, fieldOf);
