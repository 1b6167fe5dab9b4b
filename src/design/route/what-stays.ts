import type { Outcome, Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { distance3, dot3 } from '../../base/vectors.js';
import { centreLineOf, missOf, type CentreLineRow, type CentreLineStart } from '../../geom/centre-line.js';
import type { BuiltTo } from '../../job/job.js';
import { primaryStart } from '../routes-by-hand.js';
import { builtLine, builtPart, type BuiltPart } from './built.js';
import { asRouted, builtPartsOf, linesOfRecord, moveOf, rowsOfRecord } from './frozen.js';
import type { RouteRecord } from './record.js';
import {
  nothingFrozen,
  nothingOpen,
  offTheTube,
  portMoved,
  tailWanted,
  weldedOnAside,
} from './staying-problems.js';
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
    const standing = own === undefined ? partsBefore[id] : undefined;
    const rows = own ?? rowsOfRecord(record?.rows ?? []);
    if (told === undefined || told === 'whole') {
      kept[id] = rows;
      if (standing !== undefined) parts[id] = standing;
      continue;
    }
    const part = partTo(start, rows, standing, told);
    if (part instanceof Error) {
      const length = (standing?.length ?? 0) + (lines?.get(id)?.length ?? 0);
      problems.push(offTheTube(id, told.station, own ? centreLineOf(start, own).length : length, path));
      continue;
    }
    if (part === undefined) {
      problems.push(weldedOnAside(id, standing?.length ?? 0, path));
      continue;
    }
    // What the job says of it must be what was frozen, or its old tail does not begin where it now ends.
    if (leftAlone && !samePart(part, standing)) {
      problems.push(tailWanted(id, path));
      continue;
    }
    parts[id] = part;
    if (leftAlone) kept[id] = rows;
    // Rows by hand say how it runs up to the weld; behind that it is found.
    else delete kept[id];
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

/**
 * What stands of a primary up to a weld.
 * @param rows of its line, or of the tail behind what stood of it before
 * @returns undefined where more has been welded onto an end that was measured off its place; an error where the
 *   weld does not lie on the primary
 */
function partTo(
  start: CentreLineStart,
  rows: readonly CentreLineRow[],
  standing: BuiltPart | undefined,
  told: BuiltTo,
): BuiltPart | RangeError | undefined {
  try {
    if (standing === undefined) return builtPart(start, rows, told);
    if (Math.abs(standing.length - told.station) <= tolerance.file)
      return { ...standing, end: { ...standing.end, ...told.end } };
    if (told.station < standing.length) return builtPart(standing.start, standing.rows, told);
    const { end } = builtLine(standing);
    if (missOf(end, standing.end).distance > tolerance.shop) return undefined;
    return builtPart(standing.start, behindEachOther(standing.rows, rows), told);
  } catch (reason) {
    if (reason instanceof RangeError) return reason;
    throw reason;
  }
}

/** The rows of a part and of the tail that begins where it ends: the two straights there are one. */
function behindEachOther(
  part: readonly CentreLineRow[],
  tail: readonly CentreLineRow[],
): readonly CentreLineRow[] {
  const [last, first] = [part.at(-1), tail[0]];
  const straight = (row: CentreLineRow | undefined): number => (row && 'straight' in row ? row.straight : 0);
  return [...part.slice(0, -1), { straight: straight(last) + straight(first) }, ...tail.slice(1)];
}

/** Whether a part ends where it ended before. */
const samePart = (part: BuiltPart, before: BuiltPart | undefined): boolean =>
  before !== undefined &&
  Math.abs(part.length - before.length) <= tolerance.file &&
  distance3(part.end.at, before.end.at) <= tolerance.file &&
  dot3(part.end.direction, before.end.direction) >= 1 - tolerance.samePoint;

/** Whether the job leaves the router a choice of the collector's pose. */
function mayStandElsewhere({ collector }: RoutableJob): boolean {
  const { along, across, tilt } = collector.mayMove;
  return collector.clocking === undefined || along + across + tilt > 0;
}
