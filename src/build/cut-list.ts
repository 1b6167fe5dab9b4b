import type { Outcome, Problem } from '../base/problems.js';
import type { CradlePart } from '../design/parts.js';
import {
  cutFigures,
  noWeldZones,
  planPieces,
  weldPlaces,
  type CutFigures,
  type CutList,
  type JobToCut,
  type WeldPlaces,
  type ZonedRoute,
} from '../design/pieces/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import type { CentreLineRow } from '../geom/centre-line.js';
import type { Rack } from '../job/index.js';
import { openSolver } from './solver.js';

/** The routes of a job as rows, by primary: what a plan of pieces starts from. */
export type RouteRows = ReadonlyMap<string, readonly CentreLineRow[]>;

/** A cut list and what it comes to, or why there is none. */
export interface PlannedCuts {
  readonly list: CutList | undefined;
  readonly figures: CutFigures | undefined;
  readonly problems: readonly Problem[];
}

/** How hard further welds are priced: enough for a header of four, and soon given up, as nothing hangs on it. */
const PRICING = { cuts: 6000, cutsAtOnce: 1200, nodes: 4000, seconds: 3 };

/**
 * Plans the pieces of all routed primaries: fewest welds, then cheapest stock; and what that comes to.
 * @param lines as routed, and `made` as the tubes will be
 * @param prove also prove the cost; else stock is chosen quickly
 * @param cradlesOf the cradles of the fixture, asked only where there is a plan
 */
export async function planCuts(
  job: JobToCut,
  rack: Rack,
  lines: CentreLines,
  rows: RouteRows,
  made: { readonly lines: CentreLines; readonly plan: Outcome<CutList> | undefined },
  prove: boolean,
  cradlesOf: () => readonly CradlePart[],
): Promise<PlannedCuts> {
  const routes = routesToCut(job, lines, rows).map((route) => ({ ...route, made: made.lines.get(route.id) }));
  const solve = await openSolver();
  // Corrections speak of the pieces of the proved plan, and that is made before the parts.
  const { value, problems } = made.plan ?? planPieces(job, routes, rack, prove ? { solve } : {});
  if (value === undefined) return { list: undefined, figures: undefined, problems };
  const figures = cutFigures(job, rack, routes, value, cradlesOf(), { solve, effort: PRICING });
  return { list: value, figures, problems };
}

/** Where the pieces of all routed primaries may be joined. */
export const weldPlacesOf = (job: JobToCut, rack: Rack, lines: CentreLines, rows: RouteRows): WeldPlaces =>
  weldPlaces(job, routesToCut(job, lines, rows), rack);

/** The routes of a job with the stretches where they may not be welded. */
export const routesToCut = (job: JobToCut, lines: CentreLines, rows: RouteRows): readonly ZonedRoute[] =>
  [...lines].flatMap(([id, line]) => {
    const own = rows.get(id);
    if (own === undefined) return [];
    const zones = noWeldZones(job, id, line);
    const noWeld = zones.map(({ from, to, what, path }) => [from, to, { what, path }] as const);
    return [{ id, line, rows: own, zones, noWeld }];
  });
