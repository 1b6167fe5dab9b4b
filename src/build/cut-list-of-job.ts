import path from 'node:path';
import type { Problem } from '../base/problems.js';
import type { CradlePart } from '../design/parts.js';
import { ofAnotherPlan } from '../design/pieces/index.js';
import { readRouteRecord } from '../design/route/index.js';
import { cutListFiles, hashOf } from '../files/index.js';
import type { PartsOrder } from './build-parts.js';
import { weldsOf, type CheckedJob } from './check-job.js';
import { planCuts, type PlannedCuts } from './cut-list.js';
import { earlierPieces } from './earlier-cuts.js';
import { designParts } from './families.js';
import type { JobOrder } from './job-order.js';
import { placeProblem } from './place-problem.js';
import { rackOf, rackTextOf } from './rack-file.js';
import { routesName } from './routes-file.js';
import { textOrNothing } from './text-beside.js';

/**
 * The cut list of a checked job, where it has routes and a rack; with its problems placed in their own files.
 * @param prove also prove its cost
 */
export async function cutListOf(
  checked: CheckedJob,
  order: Pick<JobOrder, 'file' | 'shown' | 'only'>,
  prove: boolean,
): Promise<PlannedCuts> {
  const { job, lines, routed } = checked;
  const nothing = { list: undefined, figures: undefined, problems: [] };
  if (order.only !== undefined && !order.only.includes('cut-list')) return nothing;
  if (job === undefined || lines === undefined || routed === undefined || lines.size === 0) return nothing;
  const rack = rackOf(job, order.file, order.shown);
  if (rack?.value === undefined) return { ...nothing, problems: rack?.problems ?? [] };
  const cradles = (): readonly CradlePart[] => cradlesOf(checked, order);
  const { problems, ...made } = await planCuts(
    job,
    rack.value,
    routed.lines,
    routed.rows,
    { lines, plan: checked.plan },
    prove,
    cradles,
  );
  const placed = problems
    .map((problem) => inRecord(problem, checked, order))
    .map((problem) => placeProblem(problem, order.shown, checked.locate));
  return { ...made, problems: [...rack.problems, ...placed] };
}

/** A problem at a row of a primary that was found and not given by hand stands in the record, not in the job. */
export function inRecord(
  problem: Problem,
  { job, record }: Pick<CheckedJob, 'job' | 'record'>,
  { file, shown }: Pick<JobOrder, 'file' | 'shown'>,
): Problem {
  const [, id = '', row] = /^primaries\.by_hand\.([^.]+)(?:\.(\d+))?$/.exec(problem.place?.path ?? '') ?? [];
  const index = record?.primaries.findIndex((primary) => primary.id === id) ?? -1;
  if (index < 0 || job?.primaries?.byHand[id] !== undefined) return problem;
  const name = path.join(path.dirname(shown), routesName);
  const key = `primaries.${index}.rows${row === undefined ? '' : `.${row}`}`;
  const { locate } = readRouteRecord(textOrNothing(path.join(path.dirname(file), routesName)), name);
  return { ...problem, place: { file: name, path: key, ...locate(key) } };
}

/** The cradles of a checked job, also where others of its parts were asked for. */
function cradlesOf(checked: CheckedJob, order: Pick<JobOrder, 'file' | 'shown'>): readonly CradlePart[] {
  const { job, lines, routed, designed } = checked;
  if (job?.tackFixture === undefined || lines === undefined) return [];
  const made = designed?.made.includes('cradle') ? designed : undefined;
  const { parts } = made ?? designParts(job, lines, ['cradle'], weldsOf(routed, order), routed?.lines);
  return parts.flatMap((part) => (part.kind === 'cradle' ? [part] : []));
}

/** Corrections that speak of another plan than the one that the folder's cut list was made by. */
export function otherPlan(
  { plan, locate }: CheckedJob,
  folder: string,
  { shown }: Pick<JobOrder, 'shown'>,
): readonly Problem[] {
  const planned = plan?.value?.planned;
  if (planned === undefined) return [];
  const found = ofAnotherPlan(planned, earlierPieces(folder));
  return found.map((problem) => placeProblem(problem, shown, locate));
}

/** Hash of what the cut list is made from. */
export const cutsFrom = ({ job, source }: CheckedJob, order: JobOrder): string =>
  hashOf(JSON.stringify([source, rackTextOf(job, order)]));

/** The cut list as files. */
export const cutListRecords = (
  { job, rows }: CheckedJob,
  { list, figures }: PlannedCuts,
): PartsOrder['extra'] =>
  list === undefined || figures === undefined || job === undefined
    ? []
    : cutListFiles(list, figures, job.shop, rows).map((file) => ({ ...file, part: 'cut-list' }));
