import { tidy } from '../../base/numbers.js';
import type { Outcome, Problem } from '../../base/problems.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import { primaryStart } from '../routes-by-hand.js';
import { builtPart, type BuiltPart } from './built.js';
import { asRouted, builtPartsOf, linesOfRecord, moveOf, rowsOfRecord } from './frozen.js';
import type { RouteRecord } from './record.js';
import type { RoutableJob } from './set-problem.js';

/** What stays as it is when a job is routed anew. */
export interface Staying {
  /** The job with what stays: rows by hand for what is kept whole, and parts that stand up to a weld. */
  readonly job: RoutableJob;
  /** The primaries that are to be found: all of them, or what is missing of them. */
  readonly open: readonly string[];
}

/**
 * What of a job stands already (primaries.built), and what is to be left alone (`only` names the others):
 * taken from the routes frozen before. Kept primaries hold the collector where it is; where only parts of
 * primaries stand, it may have a new place.
 * @param before the frozen record, where there is one
 * @param only primaries to be routed; undefined: all that do not stand
 */
export function whatStays(
  job: RoutableJob,
  before: RouteRecord | undefined,
  only: readonly string[] | undefined,
): Outcome<Staying> {
  const problems: Problem[] = [];
  const { built, byHand } = job.primaries;
  const kept: Record<string, readonly CentreLineRow[]> = { ...byHand };
  const parts: Record<string, BuiltPart> = {};
  const lines = before && linesOfRecord(before);
  const partsBefore = before === undefined ? {} : builtPartsOf(before);
  for (const port of job.ports) {
    const { id } = port;
    const told = built[id];
    const leftAlone = only !== undefined && !only.includes(id);
    if (told === undefined && !leftAlone) continue;
    const path = told === undefined ? 'primaries' : `primaries.built.${id}`;
    const record = before?.primaries.find((each) => each.id === id);
    const start = primaryStart(port, job.flange?.thickness ?? 0);
    const own = byHand[id];
    if (own === undefined && (record === undefined || lines === undefined)) {
      problems.push(nothingFrozen(id, path, told !== undefined));
      continue;
    }
    const moved = record === undefined ? 0 : moveOf(job, record);
    if (moved !== 0) {
      problems.push(portMoved(id, moved, path));
      continue;
    }
    const standing = partsBefore[id];
    const rows = own ?? rowsOfRecord(record?.rows ?? []);
    if (told === undefined || told === 'whole') {
      kept[id] = rows;
      if (standing !== undefined) parts[id] = standing;
      continue;
    }
    const full = standing === undefined ? rows : standing.rows;
    const length = standing?.length ?? lines?.get(id)?.length ?? 0;
    if (standing !== undefined && Math.abs(standing.length - told.station) < 1) {
      const end = told.end === undefined ? standing.end : { ...standing.end, ...told.end };
      parts[id] = { ...standing, end };
    } else
      try {
        parts[id] = builtPart(start, full, told);
      } catch (reason) {
        if (!(reason instanceof RangeError)) throw reason;
        problems.push(offTheTube(id, told.station, length, path));
        continue;
      }
    if (leftAlone) kept[id] = rows;
  }
  if (problems.length > 0) return { value: undefined, problems };
  const open = job.ports.map(({ id }) => id).filter((id) => kept[id] === undefined);
  const anythingKept = only !== undefined || Object.keys(built).length > 0;
  if (anythingKept && open.length === 0) return { value: undefined, problems: [nothingOpen] };
  const holds = Object.keys(kept).some((id) => byHand[id] === undefined);
  const posed =
    before !== undefined && holds && mayStandElsewhere(job) ? asRouted(job, before).collector : undefined;
  const stay = { along: 0, across: 0, tilt: 0 };
  return {
    value: {
      job: {
        ...job,
        ...(posed && { collector: { ...posed, mayMove: stay } }),
        primaries: { ...job.primaries, byHand: anythingKept ? kept : byHand },
        ...(Object.keys(parts).length > 0 && { builtParts: parts }),
      },
      open,
    },
    problems,
  };
}

/** Whether the job leaves the router a choice of the collector's pose. */
function mayStandElsewhere({ collector }: RoutableJob): boolean {
  const { along, across, tilt } = collector.mayMove;
  return collector.clocking === undefined || along + across + tilt > 0;
}

const nothingFrozen = (id: string, path: string, built: boolean): Problem => ({
  code: 'route/nothing-frozen',
  severity: 'error',
  what: `${id} ${built ? 'is said to stand already' : 'is to be left as it is'}, but no route of it is frozen beside the job`,
  why: 'the others must be routed round the tube that stands, and nobody knows where it runs',
  fix: `put routes.yaml back beside the job, or give the rows of ${id} by hand`,
  place: { path },
});

const portMoved = (id: string, moved: number, path: string): Problem => ({
  code: 'route/off-job',
  severity: 'error',
  what: `the frozen route of ${id} starts ${tidy(moved, 3)} mm from where its port now stands, or leans otherwise`,
  why: 'a tube that is built cannot follow its port',
  fix: `set the port of ${id} back, or take ${id} out of primaries.built and route it anew`,
  place: { path },
});

const offTheTube = (id: string, station: number, length: number, path: string): Problem => ({
  code: 'route/built-off-tube',
  severity: 'error',
  what: `${id} is said to be built up to ${tidy(station, 1)} mm, and its frozen route is ${tidy(length, 1)} mm long`,
  why: 'the weld that it ends at must stand on it',
  fix: `give the station of a weld from the cut list, below ${tidy(length, 1)} mm, or write ${id}: whole`,
  place: { path: `${path}.up_to` },
});

const nothingOpen: Problem = {
  code: 'route/nothing-open',
  severity: 'error',
  what: 'every primary stands already or is left as it is',
  why: 'there is nothing to find',
  fix: 'name at least one primary to be routed: take it out of primaries.built, or put it into --only',
  place: { path: 'primaries.built' },
};
