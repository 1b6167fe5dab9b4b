import { degrees, roundTo } from '../../base/numbers.js';
import type { Vector } from '../../base/vectors.js';
import {
  centreLineOf,
  type CentreLine,
  type CentreLineRow,
  type CentreLineStart,
} from '../../geom/centre-line.js';
import { rowsThrough } from '../../geom/intersection-points.js';
import type { Candidate } from './candidate.js';
import type { RouteProblem } from './problem.js';

/** A row as written: mm, and degrees. */
export type RecordRow =
  { readonly straight: number } | { readonly clr: number; readonly angle: number; readonly clock: number };

/** Where rows are marched from. */
export interface StartRecord {
  readonly at: Vector;
  readonly direction: Vector;
  readonly clock_reference: Vector;
}

/** One primary of a route record; places right, up, out. */
export interface PrimaryRecord {
  readonly id: string;
  readonly slot: string;
  /** What of it stands already, up to a weld; start and rows are then those of the rest. */
  readonly built?: {
    readonly length: number;
    readonly start: StartRecord;
    readonly rows: readonly RecordRow[];
  };
  readonly start: StartRecord;
  readonly rows: readonly RecordRow[];
  readonly end: { readonly at: Vector; readonly direction: Vector };
  readonly length: number;
}

/** The route record: the same content as `routes.json`. mm and degrees. */
export interface RouteRecord {
  readonly unit: 'mm';
  readonly job: string;
  readonly jobHash?: string;
  readonly seed: number;
  /** Hash of each keep-out file that the routes were found clear of, by its name in the job. */
  readonly keep_outs?: Readonly<Record<string, string>>;
  readonly length: number;
  readonly collector: { readonly at: Vector; readonly flow: Vector; readonly clocking: number };
  readonly primaries: readonly PrimaryRecord[];
}

/** Decimals of lengths and angles: enough that the march of the rows meets the end to 1e-6 mm. */
const DECIMALS = 10;
const DIRECTION_DECIMALS = 12;

const rounded = (v: Vector, decimals: number): Vector => [
  roundTo(v[0], decimals),
  roundTo(v[1], decimals),
  roundTo(v[2], decimals),
];

/** The rows (mm, rad) of a candidate, to be marched from its start. */
export function rowsOf(
  problem: RouteProblem,
  { start, points, clrs, bends, rows: rounded }: Candidate,
): readonly CentreLineRow[] {
  const list = Array.from({ length: bends + 2 }, (_, i): Vector => [
    points[3 * i] as number,
    points[3 * i + 1] as number,
    points[3 * i + 2] as number,
  ]);
  const kept = problem.kept[start];
  if (kept) return kept.rows;
  if (rounded) return rounded;
  const from = problem.starts[start] as RouteProblem['starts'][number];
  const rows = rowsThrough({ points: list, clrs }, from.clockReference);
  if (rows === undefined) throw new RangeError(`the points of ${from.id} make no tube`);
  // A straight that came out a breath below 0 is one of no length.
  return rows.map((row) => ('straight' in row && row.straight < 0 ? { straight: 0 } : row));
}

/** The centre line of a candidate, marched from its rows. */
export const centreLineOfCandidate = (problem: RouteProblem, candidate: Candidate): CentreLine =>
  centreLineOf(problem.starts[candidate.start] as RouteProblem['starts'][number], rowsOf(problem, candidate));

const startRecord = ({ at, direction, clockReference }: CentreLineStart): StartRecord => ({
  at: rounded(at, DECIMALS),
  direction: rounded(direction, DIRECTION_DECIMALS),
  clock_reference: rounded(clockReference, DIRECTION_DECIMALS),
});

const rowRecords = (rows: readonly CentreLineRow[]): readonly RecordRow[] =>
  rows.map((row) =>
    'straight' in row
      ? { straight: roundTo(row.straight, DECIMALS) }
      : {
          clr: row.clr,
          angle: roundTo(degrees(row.angle), DECIMALS),
          clock: roundTo(degrees(row.clock), DECIMALS),
        },
  );

/** A primary as it stands in the record. */
export function primaryRecord(problem: RouteProblem, candidate: Candidate): PrimaryRecord {
  const from = problem.starts[candidate.start] as RouteProblem['starts'][number];
  const to = problem.slots[candidate.slot] as RouteProblem['slots'][number];
  const line = centreLineOfCandidate(problem, candidate);
  const { built } = from;
  return {
    id: from.id,
    slot: to.id,
    ...(built && {
      built: {
        length: roundTo(built.length, DECIMALS),
        start: startRecord(built.start),
        rows: rowRecords(built.rows),
      },
    }),
    start: startRecord(from),
    rows: rowRecords(rowsOf(problem, candidate)),
    end: {
      at: rounded(line.end.at, DECIMALS),
      direction: rounded(line.end.direction, DIRECTION_DECIMALS),
    },
    length: roundTo((built?.length ?? 0) + line.length, DECIMALS),
  };
}

/** The record of a full set of primaries. */
export function routeRecord(
  problem: RouteProblem,
  routes: readonly Candidate[],
  {
    job,
    jobHash,
    seed,
  }: { readonly job: string; readonly jobHash?: string | undefined; readonly seed: number },
): RouteRecord {
  const primaries = routes.map((route) => primaryRecord(problem, route));
  return {
    unit: 'mm',
    job,
    ...(jobHash === undefined ? {} : { jobHash }),
    seed,
    length: Math.max(...primaries.map((primary) => primary.length)),
    collector: {
      at: rounded(problem.collector.at, DECIMALS),
      flow: rounded(problem.collector.flow, DIRECTION_DECIMALS),
      clocking: roundTo(degrees(problem.collector.clocking), DECIMALS),
    },
    primaries,
  };
}
