import { tidy } from '../base/numbers.js';

export type Cell = string | number | boolean | undefined;

/**
 * A table as CSV (RFC 4180): one heading line, CRLF, cells quoted where they must be. Numbers with three
 * decimals at most and a decimal point, whatever the country.
 */
export function writeCsv(heads: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [heads, ...rows].map((row) => row.map(cellText).join(',') + '\r\n').join('');
}

function cellText(cell: Cell): string {
  if (cell === undefined) return '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  const text = typeof cell === 'number' ? tidy(cell, 3) : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
