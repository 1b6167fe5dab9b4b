import path from 'node:path';
import { isError } from '../base/problems.js';
import { routePicture } from '../design/route-picture.js';
import { wholeLines } from '../design/route/index.js';
import { hashOf, measureRoutesSvg, readManifest, routesSvg } from '../files/index.js';
import { keptWithoutRoutes } from './as-it-was.js';
import { buildParts, type PartsOrder } from './build-parts.js';
import { checkJob, weldsOf, type CheckedJob } from './check-job.js';
import { cutListOf, cutListRecords, cutsFrom, otherPlan } from './cut-list-of-job.js';
import { designParts } from './families.js';
import type { JobOrder } from './job-order.js';
import { timed, type BuildReport } from './report.js';
import { sameBuild, wholeFrom } from './same-build.js';

/** The bed assumed where the job names no printer: a common small one (common practice, no source). */
const USUAL_BED = [220, 220, 250] as const;

/** Builds a job: reads, designs, makes, measures, writes. */
export async function buildJob(order: JobOrder): Promise<BuildReport> {
  const same = order.brief ? sameBuild(order) : undefined;
  if (same !== undefined) return same;
  const checked = await timed(order, 'read and design', () => checkJob(order));
  const { job, lines, routed, designed } = checked;
  const name = job?.name ?? '';
  const folder = order.folder ?? path.join(order.root, 'exports', name);
  const cuts = await timed(order, 'cut list', () => cutListOf(checked, order, true));
  const amiss = otherPlan(checked, folder, order);
  // What follows from corrections of another plan is not worth telling.
  const problems = amiss.length > 0 ? amiss : [...checked.problems, ...cuts.problems];
  if (job === undefined || lines === undefined || designed === undefined || problems.some(isError)) {
    const none = { parts: [], files: [], reused: [], measures: [], cutList: undefined };
    return { ok: false, name, folder, job, ...none, problems };
  }
  // The other parts are designed only where files of theirs may have gone stale.
  const lying = order.only === undefined ? undefined : readManifest(folder);
  const others =
    lying === undefined
      ? []
      : designParts(job, lines, undefined, weldsOf(routed, order), routed?.lines).parts;
  const made = await buildParts({
    name,
    source: checked.source,
    asked: checked.asked,
    seed: checked.record?.seed,
    parts: [...designed.parts, ...others.filter((part) => !designed.made.includes(part.family))],
    chosen: designed.parts,
    formats: order.formats,
    folder,
    dxf: order.dxf,
    printerBed: job.tackFixture?.printerBed ?? USUAL_BED,
    keep: keptWithoutRoutes(job, lines, order),
    whole: order.only === undefined ? { from: wholeFrom(order), told: problems } : undefined,
    extra: [...routeRecords(checked, order), ...cutListRecords(checked, cuts)],
    extraInputs: { routes: hashOf(checked.source), 'cut-list': cutsFrom(checked, order) },
    watch: order,
  });
  const told = [...problems, ...made.problems];
  return {
    ...made,
    name,
    job,
    parts: designed.parts,
    cutList: cuts.list,
    cutFigures: cuts.figures,
    problems: told,
  };
}

/** The route record among the exports, for others to check, and the picture of the routes for the wall. */
function routeRecords(
  { job, lines, record }: CheckedJob,
  { only, formats }: Pick<JobOrder, 'only' | 'formats'>,
): PartsOrder['extra'] {
  if (only !== undefined && !only.includes('primary')) return [];
  const json = record && { path: 'routes.json', bytes: JSON.stringify(record, null, 2) + '\n' };
  const picture =
    job && lines && (formats?.includes('svg') ?? true)
      ? routePicture(job, wholeLines(job, lines))
      : undefined;
  const bytes = picture && routesSvg(picture);
  const svg = picture && bytes && { path: 'routes.svg', bytes, measures: measureRoutesSvg(bytes, picture) };
  return [json, svg].flatMap((file) => (file ? [{ ...file, part: 'routes' }] : []));
}
