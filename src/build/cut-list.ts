import type { Problem } from '../base/problems.js';
import {
  planPieces,
  weldPlaces,
  type CutList,
  type RouteToCut,
  type WeldPlaces,
} from '../design/pieces/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import type { CentreLineRow } from '../geom/centre-line.js';
import type { Job } from '../job/job.js';
import type { Rack } from '../job/index.js';
import { openSolver } from './solver.js';

/** The routes of a job as rows, by primary: what a plan of pieces starts from. */
export type RouteRows = ReadonlyMap<string, readonly CentreLineRow[]>;

/** A cut list, or why there is none. */
export interface PlannedCuts {
  readonly list: CutList | undefined;
  readonly problems: readonly Problem[];
}

/**
 * Plans the pieces of all routed primaries: fewest welds, then cheapest stock.
 * @param prove also prove the cost, which loads the solver; else stock is chosen quickly
 */
export async function planCuts(
  job: Job,
  rack: Rack,
  lines: CentreLines,
  rows: RouteRows,
  prove: boolean,
): Promise<PlannedCuts> {
  const routes = routesToCut(lines, rows);
  // Corrections speak of the pieces of the proved plan, so that one is made again.
  const corrected = Object.keys(job.asCut).length > 0;
  const options = prove || corrected ? { solve: await openSolver() } : {};
  const { value, problems } = planPieces(job, routes, rack, options);
  return { list: value, problems };
}

/** Where the pieces of all routed primaries may be joined. */
export const weldPlacesOf = (job: Job, rack: Rack, lines: CentreLines, rows: RouteRows): WeldPlaces =>
  weldPlaces(job, routesToCut(lines, rows), rack);

const routesToCut = (lines: CentreLines, rows: RouteRows): readonly RouteToCut[] =>
  [...lines].flatMap(([id, line]) => {
    const own = rows.get(id);
    return own === undefined ? [] : [{ id, line, rows: own }];
  });
