import { tidy } from '../base/numbers.js';
import type { PrimaryStanding, RouteChange, RouteResult } from '../design/route/index.js';
import type { Paint } from './paint.js';

/** A column of the table: its head, and what stands in it for each primary. */
interface Column {
  readonly head: string;
  readonly cell: (standing: PrimaryStanding, index: number) => string;
}

const slot: Column = { head: 'slot', cell: (each) => each.slot };
const bends: Column = { head: 'bends', cell: (each) => String(each.bends) };
const length: Column = { head: 'length', cell: (each) => each.length.toFixed(1) };
const last: Column = { head: 'last straight', cell: (each) => each.lastStraight.toFixed(1) };
const spare: Column = { head: 'to spare', cell: ({ nearest }) => nearest.spare.toFixed(1) };

/** What each comes nearest to stands last, as it may be long. */
const nearestTo = ({ nearest: { to, station } }: PrimaryStanding): string =>
  station === undefined ? to : `${to}, at ${tidy(station, 0)}`;

function table(standings: readonly PrimaryStanding[], columns: readonly Column[], paint: Paint): string[] {
  const rows = standings.map((each, i) => columns.map(({ cell }) => cell(each, i)));
  const wide = columns.map(({ head }, i) =>
    Math.max(head.length, ...rows.map((row) => (row[i] ?? '').length)),
  );
  const line = (first: string, cells: readonly string[], end: string): string =>
    `  ${first.padEnd(4)}  ${cells.map((cell, i) => cell.padStart(wide[i] ?? 0)).join('  ')}  ${end}`;
  const heads = columns.map(({ head }) => head);
  return [
    paint.dim('(mm; to spare is over the clearance asked there)'),
    paint.dim(line('', heads, 'nearest to')),
    ...standings.map((each, i) => line(each.id, rows[i] ?? [], nearestTo(each))),
  ];
}

/** The primaries of a job as they stand: slot, bends, lengths, and what each comes nearest to. */
export const standingLines = (standings: readonly PrimaryStanding[], paint: Paint): string[] =>
  standings.length === 0
    ? []
    : ['', paint.strong('Routes'), ...table(standings, [slot, bends, length, last, spare], paint)];

/** What a search has found: the sum of it, a line a primary, and which primary sets the pace. */
export function routeLines(
  { record, welds, weldsEach, bound, pace }: RouteResult,
  standings: readonly PrimaryStanding[],
  paint: Paint,
): string[] {
  if (record === undefined) return [];
  const proved = welds === bound ? 'and no fewer will do' : `at least ${bound} are needed`;
  const count = record.primaries.length;
  const each: Column = { head: 'welds', cell: (_, i) => String(weldsEach[i] ?? '') };
  const alone: Column = { head: 'least alone', cell: (_, i) => pace[i]?.shortest?.toFixed(0) ?? '-' };
  const columns = [slot, bends, each, last, ...(pace.length === count ? [alone] : []), spare];
  const looked = pace.flatMap(({ primary, shortest }) =>
    shortest === undefined ? [] : [{ primary, shortest }],
  );
  const slowest = looked.length < count ? undefined : looked.sort((a, b) => b.shortest - a.shortest)[0];
  return [
    `${paint.good('good')}  ${count} ${count === 1 ? 'primary' : 'primaries'} of ${tidy(record.length, 2)} mm, ${welds} welds (${proved})`,
    ...table(standings, columns, paint),
    ...(slowest === undefined
      ? []
      : [
          `${slowest.primary} sets the pace: with all the room to itself it was still ${tidy(slowest.shortest, 0)} mm at the shortest tried.`,
        ]),
  ];
}

/** What changed against the routes of before, a line a primary that did. */
export function changeLines(changes: readonly RouteChange[]): string[] {
  if (changes.length === 0) return [];
  const sum = (which: 0 | 1): string =>
    String(changes.reduce((total, { welds }) => total + (welds[which] ?? NaN), 0)).replace('NaN', '?');
  const lines = changes.map(({ id, sameFor, slots, lengths, welds }) => {
    if (sameFor === Infinity) return `  ${id} as before`;
    const same = sameFor < 1 ? 'new' : `the same for its first ${tidy(Math.floor(sameFor), 0)} mm, then new`;
    const slot = slots[0] === slots[1] ? '' : `, ${slots[1]} instead of ${slots[0]}`;
    return `  ${id} ${same}: ${welds[0] ?? '?'} -> ${welds[1] ?? '?'} pieces, ${tidy(lengths[0], 1)} -> ${tidy(lengths[1], 1)} mm${slot}`;
  });
  return [`Against the routes of before (${sum(0)} -> ${sum(1)} welds still to make):`, ...lines];
}
