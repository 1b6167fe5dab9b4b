import { readFileSync } from 'node:fs';
import path from 'node:path';
import { isError, Refusal, type Outcome, type Problem } from '../base/problems.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import {
  wholeLines,
  type FieldOf,
  type PrimaryStanding,
  type RouteRecord,
  type WithParts,
} from '../design/route/index.js';
import { routePicture } from '../design/route-picture.js';
import { cutListFiles, hashOf, measureRoutesSvg, readManifest, routesSvg } from '../files/index.js';
import { readJob } from '../job/index.js';
import type { Job } from '../job/job.js';
import type { CradlePart } from '../design/parts.js';
import { ofAnotherPlan, type CutList } from '../design/pieces/index.js';
import { keptWithoutRoutes } from './as-it-was.js';
import { buildParts, type PartsOrder } from './build-parts.js';
import { keepOutHashes } from './keep-out-hashes.js';
import { earlierPieces } from './earlier-cuts.js';
import { familyNames, refuseUnknown } from './choices.js';
import type { JobOrder } from './job-order.js';
import { noJobFile } from './no-job-file.js';
import { planCuts, weldPlacesOf, type PlannedCuts, type RouteRows } from './cut-list.js';
import { rackOf } from './rack-file.js';
import { designParts, type WeldsOf } from './families.js';
import { routesOf, type JobRoutes } from './frozen-routes.js';
import { linesAsMade } from './lines-as-made.js';
import { placeProblem } from './place-problem.js';
import { sameBuild, wholeFrom } from './same-build.js';
import { textToHash } from './text-beside.js';
import { timed, type BuildReport } from './report.js';

/** A job read and designed, with all that is to be told about it. No kernel, nothing written. */
export interface CheckedJob {
  readonly job: (Job & WithParts) | undefined;
  readonly source: string;
  /** The job alone, as a route record's jobHash is of it: its text, what was set, the files of its keep-outs. */
  readonly asked: string;
  /** The centre lines its parts were designed along. */
  readonly lines: CentreLines | undefined;
  readonly rows: RouteRows;
  /** Its routes, which tubes with pieces that came out otherwise have left; and the plan that says so. */
  readonly routed: Pick<JobRoutes, 'job' | 'lines' | 'rows'> | undefined;
  readonly plan: Outcome<CutList> | undefined;
  /** The record that the routes were frozen in. */
  readonly record: RouteRecord | undefined;
  readonly standings: readonly PrimaryStanding[];
  /** The distances to keep-outs that are files; undefined where there are none, or they could not be read. */
  readonly fieldOf: FieldOf | undefined;
  readonly designed: ReturnType<typeof designParts> | undefined;
  readonly problems: readonly Problem[];
}

/** The bed assumed where the job names no printer: a common small one (common practice, no source). */
const USUAL_BED = [220, 220, 250] as const;

/** Reads a job file, checks it and designs its parts. */
export async function checkJob(
  order: Pick<JobOrder, 'file' | 'shown' | 'set' | 'only'>,
): Promise<CheckedJob> {
  const absent = noJobFile(order.file, order.shown);
  if (absent !== undefined) throw new Refusal([absent]);
  if (order.only !== undefined) refuseUnknown(order.only, familyNames, '--only');
  const text = readFileSync(order.file, 'utf8');
  const { value: read, problems, locate } = readJob(text, { file: order.shown, set: order.set });
  const nothing = {
    lines: undefined,
    routed: undefined,
    plan: undefined,
    record: undefined,
    rows: new Map(),
    standings: [],
    fieldOf: undefined,
    designed: undefined,
  };
  if (read === undefined) return { ...nothing, job: read, source: text, asked: text, problems };
  const solids = await keepOutFields(read, order.file);
  const routes = routesOf(read, order, solids.fieldOf);
  const { job, record } = routes;
  const made = await linesAsMade(routes, order, solids.fieldOf);
  const { lines, rows, standings, plan } = made;
  // Tubes that are not as routed depend on what they were cut from, too.
  const rackText = plan === undefined ? [] : [rackTextOf(job, order)];
  const hashes = keepOutHashes(job, order.file);
  const hashed = Object.keys(hashes).length > 0 ? [hashes] : [];
  const source = JSON.stringify([text, order.set, routes.text, ...hashed, ...rackText]);
  const asked = JSON.stringify([text, order.set, ...hashed]);
  const designed = designParts(job, lines, order.only, weldsOf(routes, order), routes.lines);
  const found = [...solids.problems, ...routes.problems, ...made.problems, ...designed.problems];
  const placed = found.map((problem) => placeProblem(problem, order.shown, locate));
  const { fieldOf } = solids;
  return {
    job,
    lines,
    rows,
    routed: routes,
    plan,
    record,
    standings,
    fieldOf,
    source,
    asked,
    designed,
    problems: [...problems, ...placed],
  };
}

/** The keep-outs of a job that are files, read and ready to be measured to; nothing is loaded where there are none. */
async function keepOutFields(
  job: Job,
  file: string,
): Promise<{ readonly fieldOf: FieldOf | undefined; readonly problems: readonly Problem[] }> {
  if (job.keepOuts.every(({ shape }) => !('file' in shape))) return { fieldOf: undefined, problems: [] };
  const { readKeepOutFiles } = await import('./keep-out-files.js');
  const { fieldsOf } = await import('./keep-out-fields.js');
  const { meshes, problems } = await readKeepOutFiles(job, file);
  return { fieldOf: problems.some(isError) ? undefined : await fieldsOf(meshes), problems };
}

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
  const { locate } = readJob(readFileSync(order.file, 'utf8'), { file: order.shown });
  const placed = problems.map((problem) => placeProblem(problem, order.shown, locate));
  return { ...made, problems: [...rack.problems, ...placed] };
}

/** Builds a job: reads, designs, makes, measures, writes. */
export async function buildJob(order: JobOrder): Promise<BuildReport> {
  const same = order.brief ? sameBuild(order) : undefined;
  if (same !== undefined) return same;
  const checked = await timed(order, 'read and design', () => checkJob(order));
  const { job, lines, routed, designed } = checked;
  const name = job?.name ?? '';
  const folder = order.folder ?? path.join(order.root, 'exports', name);
  const cuts = await timed(order, 'cut list', () => cutListOf(checked, order, true));
  const amiss = otherPlan(cuts, folder, order);
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

/** Corrections that speak of another plan than the one that the folder's cut list was made by. */
function otherPlan(
  { list }: PlannedCuts,
  folder: string,
  { file, shown }: Pick<JobOrder, 'file' | 'shown'>,
): readonly Problem[] {
  if (list?.planned === undefined) return [];
  const { locate } = readJob(readFileSync(file, 'utf8'), { file: shown });
  const found = ofAnotherPlan(list.planned, earlierPieces(folder));
  return found.map((problem) => placeProblem(problem, shown, locate));
}

/** Where primaries may be welded, by the rack; undefined where no rack says. Faults of the rack are told with the cut list. */
const weldsOf =
  (routed: CheckedJob['routed'], order: Pick<JobOrder, 'file' | 'shown'>): WeldsOf =>
  () => {
    const rack = routed && rackOf(routed.job, order.file, order.shown)?.value;
    return rack && weldPlacesOf(routed.job, rack, routed.lines, routed.rows);
  };

/** The cradles of a checked job, also where others of its parts were asked for. */
function cradlesOf(checked: CheckedJob, order: Pick<JobOrder, 'file' | 'shown'>): readonly CradlePart[] {
  const { job, lines, routed, designed } = checked;
  if (job?.tackFixture === undefined || lines === undefined) return [];
  const made = designed?.made.includes('cradle') ? designed : undefined;
  const { parts } = made ?? designParts(job, lines, ['cradle'], weldsOf(routed, order), routed?.lines);
  return parts.flatMap((part) => (part.kind === 'cradle' ? [part] : []));
}

/** Hash of what the cut list is made from. */
const cutsFrom = ({ job, source }: CheckedJob, order: JobOrder): string =>
  hashOf(JSON.stringify([source, rackTextOf(job, order)]));

/** The text of a job's rack, where there is one. */
function rackTextOf(job: Job | undefined, { file }: Pick<JobOrder, 'file'>): string {
  const rack = job?.rack === undefined ? undefined : path.resolve(path.dirname(file), job.rack);
  return rack === undefined ? '' : textToHash(rack);
}

const cutListRecords = ({ job, rows }: CheckedJob, { list, figures }: PlannedCuts): PartsOrder['extra'] =>
  list === undefined || figures === undefined || job === undefined
    ? []
    : cutListFiles(list, figures, job.shop, rows).map((file) => ({ ...file, part: 'cut-list' }));

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
