import type { Outcome, Problem } from '../base/problems.js';
import {
  noWeldZones,
  planPieces,
  remadePrimaries,
  weldsAmiss,
  type CutList,
  type Remade,
} from '../design/pieces/index.js';
import { HeadNotCleared, standingOf, standingProblems, type FieldOf } from '../design/route/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import { routesToCut, type RouteRows } from './cut-list.js';
import { alongRoutes, withoutUnread, type JobRoutes } from './frozen-routes.js';
import type { JobOrder } from './job-order.js';
import { rackOf } from './rack-file.js';
import { openSolver } from './solver.js';

/** What the parts of a job are made along: its routes, but for tubes with pieces that came out otherwise. */
export interface MadeLines {
  readonly lines: CentreLines;
  readonly rows: RouteRows;
  /** The plan with the corrections worked in, so that it is made once; undefined where there are none. */
  readonly plan: Outcome<CutList> | undefined;
  readonly standings: JobRoutes['standings'];
  readonly problems: readonly Problem[];
}

/**
 * Works what was corrected at the bench into the lines of a job, and measures the tubes as they will be against
 * what surrounds them.
 */
export async function linesAsMade(
  { job, lines, rows, standings }: JobRoutes,
  order: Pick<JobOrder, 'file' | 'shown' | 'only'>,
  fieldOf: FieldOf | undefined,
): Promise<MadeLines> {
  const asRouted: MadeLines = { lines, rows, standings, plan: undefined, problems: [] };
  const corrections = Object.keys(job.asCut);
  if (corrections.length === 0 || order.only?.every((name) => !alongRoutes.includes(name)) === true)
    return asRouted;
  if (lines.size === 0 || job.rack === undefined)
    return { ...asRouted, problems: [idle(corrections, lines)] };
  const rack = rackOf(job, order.file, order.shown)?.value;
  // What is wrong with the rack is told with the cut list.
  if (rack === undefined) return asRouted;
  const plan = planPieces(job, routesToCut(job, lines, rows), rack, { solve: await openSolver() });
  // Where the cut list is asked for, it tells what is wrong with its plan.
  const untold = order.only !== undefined && !order.only.includes('cut-list');
  if (plan.value === undefined) return { ...asRouted, plan, problems: untold ? plan.problems : [] };
  const remade = remadePrimaries(plan.value, lines);
  if (remade.size === 0) return { ...asRouted, plan };
  const made = new Map([...lines].map(([id, line]) => [id, remade.get(id)?.line ?? line]));
  const stood = standing(job, made, remade, fieldOf);
  const zonesOf = (id: string): ReturnType<typeof noWeldZones> => {
    const line = made.get(id);
    return line === undefined ? [] : noWeldZones(job, id, line);
  };
  return {
    lines: made,
    rows: new Map([...rows].map(([id, own]) => [id, remade.get(id)?.rows ?? own])),
    plan,
    standings: stood.standings,
    problems: [...stood.problems, ...weldsAmiss(plan.value, remade, zonesOf)],
  };
}

/** How the tubes stand as they will be, and what those that left their routes come too near to. */
function standing(
  job: JobRoutes['job'],
  made: CentreLines,
  remade: ReadonlyMap<string, Remade>,
  fieldOf: FieldOf | undefined,
): Pick<MadeLines, 'standings' | 'problems'> {
  try {
    const standings = standingOf(withoutUnread(job, fieldOf), made, fieldOf);
    const concerned = standings.filter(({ id, nearest }) => remade.has(id) || remade.has(nearest.to));
    const other = (id: string): string => concerned.find((each) => each.id === id)?.nearest.to ?? '';
    return {
      standings,
      problems: standingProblems(concerned, {
        severity: 'warning',
        placeOf: (id) => ({ path: (remade.get(id) ?? remade.get(other(id)))?.path ?? 'as_cut' }),
        called: (id) => (remade.has(id) ? `${id} as cut` : id),
      }),
    };
  } catch (reason) {
    // That a port does not clear its head is told with the routes.
    if (!(reason instanceof HeadNotCleared)) throw reason;
    return { standings: [], problems: [] };
  }
}

const idle = (corrections: readonly string[], lines: CentreLines): Problem => ({
  code: 'pieces/as-cut-idle',
  severity: 'warning',
  what: `as_cut speaks of ${corrections.length} pieces, and there is no cut list, as ${lines.size === 0 ? 'no routes fit the job' : 'the job has no rack'}`,
  why: 'nothing was corrected',
  fix:
    lines.size === 0
      ? `put back the job and the routes.yaml that they were cut by; where you route anew round what stands (primaries.built), take these ${corrections.length} out of as_cut`
      : 'write `rack:` with the 1 rack file that the pieces were cut from',
  place: { path: 'as_cut' },
});
