import { tidy } from '../base/numbers.js';
import type { PrimaryStanding } from '../design/route/index.js';
import type { Paint } from './paint.js';

/** A table of the primaries as they stand: slot, bends, length, last straight, and what each comes nearest to. */
export function standingLines(standings: readonly PrimaryStanding[], paint: Paint): string[] {
  if (standings.length === 0) return [];
  const rows = standings.map(({ id, slot, bends, length, lastStraight, nearest }) => [
    id,
    slot,
    String(bends),
    tidy(length, 1),
    tidy(lastStraight, 1),
    tidy(nearest.spare, 1),
    nearest.station === undefined ? nearest.to : `${nearest.to}, at ${tidy(nearest.station, 0)}`,
  ]);
  const head = ['', 'slot', 'bends', 'length', 'last straight', 'to spare', 'nearest to'];
  const wide = head.map((word, i) => Math.max(word.length, ...rows.map((row) => row[i]?.length ?? 0)));
  const text = (row: readonly string[]): string =>
    row
      .map((word, i) =>
        i === 0 || i === row.length - 1
          ? word.padEnd(i === 0 ? (wide[0] ?? 0) : 0)
          : word.padStart(wide[i] ?? 0),
      )
      .join('  ');
  return [
    '',
    paint.strong('Routes'),
    paint.dim('(mm; to spare is over the clearance asked there)'),
    paint.dim(`  ${text(head)}`),
    ...rows.map((row) => `  ${text(row)}`),
  ];
}
