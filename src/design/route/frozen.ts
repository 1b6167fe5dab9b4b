import { radians, tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { distance3, dot3 } from '../../base/vectors.js';
import { centreLineOf, type CentreLineRow, type CentreLineStart } from '../../geom/centre-line.js';
import type { Job } from '../../job/job.js';
import { collectorSlots } from '../collector-slots.js';
import { checkLines, primaryStart, type CentreLines } from '../routes-by-hand.js';
import type { BuiltPart } from './built.js';
import type { PrimaryRecord, RecordRow, RouteRecord, StartRecord } from './record.js';
import type { RoutedJob } from './set-problem.js';

/** The rows of a record as geometry takes them: rad instead of degrees. */
export const rowsOfRecord = (rows: readonly RecordRow[]): readonly CentreLineRow[] =>
  rows.map((row) =>
    'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) },
  );

/** A start of a record as geometry takes it. */
const startOf = ({ at, direction, clock_reference }: StartRecord): CentreLineStart => ({
  at,
  direction,
  clockReference: clock_reference,
});

/** What the primaries of a record stand built up to a weld, by primary. */
export const builtPartsOf = (record: RouteRecord): Readonly<Record<string, BuiltPart>> =>
  Object.fromEntries(
    record.primaries.flatMap(({ id, built, start }) =>
      built === undefined
        ? []
        : [
            [
              id,
              {
                length: built.length,
                start: startOf(built.start),
                rows: rowsOfRecord(built.rows),
                end: startOf(start),
              },
            ],
          ],
    ),
  );

/** The centre lines of a record, marched from the starts it gives: of a primary built up to a weld, the rest. */
export const linesOfRecord = (record: RouteRecord): CentreLines =>
  new Map(
    record.primaries.map(({ id, start, rows }) => [id, centreLineOf(startOf(start), rowsOfRecord(rows))]),
  );

/**
 * How far (mm) a port has moved since its primary was frozen, 0 where it has not: less than a file's rounding.
 * A port that only leans otherwise counts as moved by that rounding.
 */
export function moveOf(
  job: Job,
  { id, start, built }: Pick<PrimaryRecord, 'id' | 'start' | 'built'>,
): number {
  const port = job.ports.find((each) => each.id === id);
  if (port === undefined) return Infinity;
  const now = primaryStart(port, job.flange?.thickness ?? 0);
  const from = built?.start ?? start;
  const moved = distance3(now.at, from.at);
  if (moved > tolerance.file) return moved;
  return dot3(now.direction, from.direction) < 1 - tolerance.samePoint ? tolerance.file : 0;
}

/** How the part of a primary that stands differs between record and job, in words; undefined where it does not. */
function partChanged(job: Job, { id, built, start }: PrimaryRecord): string | undefined {
  const told = job.primaries?.built[id];
  if (told === 'whole') return undefined;
  const far = (a: number | undefined): string => (a === undefined ? 'not at all' : `up to ${tidy(a, 2)} mm`);
  if (built === undefined || told === undefined) {
    if (built === told) return undefined;
    return `the record has ${id} built ${far(built?.length)}, the job ${far(told?.station)}`;
  }
  if (Math.abs(built.length - told.station) > tolerance.file)
    return `the record has ${id} built ${far(built.length)}, the job ${far(told.station)}`;
  const off = told.end === undefined ? 0 : distance3(told.end.at, start.at);
  if (off > tolerance.file)
    return `the open end of ${id} was measured ${tidy(off, 3)} mm from where the record has it`;
  return undefined;
}

/**
 * Whether a frozen record still belongs to the job: every primary starts where the job's port now stands,
 * and its march ends where the record says. Whether it meets its slot, and the lengths, are judged as for
 * routes by hand.
 */
export function checkRecord(job: Job, record: RouteRecord, file: string): readonly Problem[] {
  const problems: Problem[] = [];
  const lines = linesOfRecord(record);
  const off = (
    path: string,
    what: string,
    fix = 'run `tackwright route` again for this job, or set the job back to what it was',
  ): void => {
    problems.push({
      code: 'route/off-job',
      severity: 'error',
      what,
      why: 'tubes cut from it would not meet the head or the collector',
      fix,
      place: { file, path },
    });
  };
  problems.push(...slotsAmiss(asRouted(job, record), record, lines, file));
  record.primaries.forEach(({ id, start, end, built: part }, i) => {
    const port = job.ports.find((each) => each.id === id);
    if (port === undefined) {
      off(`primaries.${i}.id`, `the record has a primary ${id}, the job has no such port`);
      return;
    }
    const built = partChanged(job, record.primaries[i] as PrimaryRecord);
    if (built !== undefined) off(`primaries.${i}`, built);
    const moved = moveOf(job, { id, start, ...(part && { built: part }) });
    if (moved !== 0)
      off(
        `primaries.${i}.start`,
        `${id} starts ${tidy(moved, 3)} mm from where its port now stands, or leans otherwise`,
      );
    const reached = lines.get(id)?.end.at ?? start.at;
    const miss = distance3(reached, end.at);
    if (miss > tolerance.file)
      off(
        `primaries.${i}.end`,
        `the rows of ${id} end ${tidy(miss, 3)} mm from the end that the record gives`,
        `put the rows back; or, if you changed them on purpose, write the end where they lead: at: [${reached.map((each) => tidy(each, 6)).join(', ')}]`,
      );
  });
  return problems.length > 0 ? problems : checkLines(asRouted(job, record), lines);
}

/** Slots of a record that the collector has not, that stand twice, or that another's end is nearer to. */
function slotsAmiss(
  { collector, tube, ports }: RoutedJob,
  { primaries }: RouteRecord,
  lines: CentreLines,
  file: string,
): readonly Problem[] {
  if (collector === undefined || tube === undefined) return [];
  const { slots } = collectorSlots(collector, tube.od, ports.length);
  const names = slots.map(({ id }) => id).join(', ');
  return primaries.flatMap(({ id, slot }, i): Problem[] => {
    const amiss = (what: string, fix: string): Problem[] => [
      {
        code: 'route/off-job',
        severity: 'error',
        what,
        why: 'the tube would be cut for a place at the collector that is not its own',
        fix,
        place: { file, path: `primaries.${i}.slot` },
      },
    ];
    const before = primaries.slice(0, i).find((one) => one.slot === slot);
    if (before !== undefined)
      return amiss(
        `${before.id} and ${id} both end at ${slot}`,
        `give each of the ${primaries.length} its own: ${names}`,
      );
    const line = lines.get(id);
    if (!slots.some((one) => one.id === slot))
      return amiss(`${id} ends at ${slot}, and the collector has ${names}`, `write 1 of ${names}`);
    if (line === undefined) return [];
    const far = slots.map((one) => distance3(one.at, line.end.at));
    const nearest = slots[far.indexOf(Math.min(...far))];
    return nearest === undefined || nearest.id === slot
      ? []
      : amiss(
          `${id} is said to end at ${slot}, and its rows end nearest to ${nearest.id}`,
          `write slot: ${nearest.id}`,
        );
  });
}

/** The job with the collector where the record has it, for the router may have turned or moved it. */
export function asRouted(job: Job, record: RouteRecord): RoutedJob {
  const { collector } = record;
  if (job.collector === undefined) return job;
  const builtParts = builtPartsOf(record);
  return {
    ...job,
    ...(Object.keys(builtParts).length > 0 && { builtParts }),
    collector: {
      ...job.collector,
      at: collector.at,
      flow: collector.flow,
      clocking: radians(collector.clocking),
    },
  };
}
