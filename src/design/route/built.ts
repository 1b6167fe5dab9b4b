import {
  centreLineOf,
  lineBehind,
  type CentreLine,
  type CentreLineRow,
  type CentreLineStart,
} from '../../geom/centre-line.js';
import { packCentreLine, STRIDE, type PackedLine } from '../../geom/packed-line.js';
import { squaredToArcEnds, squaredToPieces } from '../../geom/point-to-line.js';
import type { BuiltTo } from '../../job/job.js';
import type { CentreLines } from '../routes-by-hand.js';

/**
 * What stands of a primary that is built up to a weld: plain data, mm and rad. Only its tail is found anew,
 * from its open end on.
 */
export interface BuiltPart {
  /** Along its centre line, from the flange's tube side to its open end. */
  readonly length: number;
  readonly start: CentreLineStart;
  readonly rows: readonly CentreLineRow[];
  /** Its open end: as measured, else as the rows have it. Clocking of the tail counts on from its last bend. */
  readonly end: CentreLineStart;
}

/** The rows of a line up to a station (mm), the straight or bend that it falls into cut there. */
function rowsUpTo({ pieces }: CentreLine, rows: readonly CentreLineRow[], station: number): CentreLineRow[] {
  const kept: CentreLineRow[] = [];
  for (const [i, piece] of pieces.entries()) {
    const row = rows[i] as CentreLineRow;
    const left = station - piece.station;
    if (left <= 0) break;
    if (left >= piece.length) kept.push(row);
    else kept.push('straight' in row ? { straight: left } : { ...row, angle: left / row.clr });
  }
  return kept.length % 2 === 0 ? [...kept, { straight: 0 }] : kept;
}

/**
 * Cuts a primary at the weld it is built up to.
 * @param to the weld's station and, where its open end was measured, that
 * @throws RangeError where the station lies off the line
 */
export function builtPart(start: CentreLineStart, rows: readonly CentreLineRow[], to: BuiltTo): BuiltPart {
  const line = centreLineOf(start, rows);
  if (!(to.station > 0 && to.station < line.length))
    throw new RangeError(`station ${to.station} is not on a primary of ${line.length}`);
  const own = rowsUpTo(line, rows, to.station);
  const cut = centreLineOf(start, own);
  let reference = start.clockReference;
  for (const piece of cut.pieces) if (piece.kind === 'bend') reference = piece.endTurnToward;
  const { at, direction } = to.end ?? cut.end;
  return { length: to.station, start, rows: own, end: { at, direction, clockReference: reference } };
}

/** The centre line of what stands. */
export const builtLine = ({ start, rows }: BuiltPart): CentreLine => centreLineOf(start, rows);

/** What stands already of a job's primaries, by primary. */
export interface WithParts {
  readonly builtParts?: Readonly<Record<string, BuiltPart>>;
}

/** The centre lines of primaries from the flange on, what stands of them before their tails. */
export const wholeLines = ({ builtParts = {} }: WithParts, lines: CentreLines): CentreLines =>
  new Map(
    [...lines].map(([id, line]) => {
      const part = builtParts[id];
      return [id, part === undefined ? line : lineBehind(builtLine(part), line)];
    }),
  );

/** Stations along tails as stations from the flange on; the weld that a tail goes on at comes first. */
export const weldsFromFlange = (
  { builtParts = {} }: WithParts,
  welds: ReadonlyMap<string, readonly number[]>,
): ReadonlyMap<string, readonly number[]> =>
  new Map(
    [...welds].map(([id, stations]) => {
      const part = builtParts[id];
      return [id, part === undefined ? stations : [0, ...stations].map((at) => part.length + at)];
    }),
  );

/** Signed distance (mm) to the tube that stands: its ends count as round. */
export function distanceToBuilt(part: BuiltPart, od: number): (x: number, y: number, z: number) => number {
  const { data, pieces } = packCentreLine(builtLine(part));
  return (x, y, z) => {
    let square = squaredToPieces(data, 0, pieces, x, y, z);
    for (let i = 0; i < pieces; i++)
      if (data[i * STRIDE] !== 0) square = Math.min(square, squaredToArcEnds(data, i, x, y, z));
    return Math.sqrt(square) - od / 2;
  };
}

/** A tail behind what stands of its primary, as one line: for asking whether the tube meets itself. */
export function joined(part: BuiltPart, tail: PackedLine): PackedLine {
  const before = packCentreLine(builtLine(part));
  const data = new Float64Array((before.pieces + tail.pieces) * STRIDE);
  data.set(before.data.subarray(0, before.pieces * STRIDE));
  data.set(tail.data.subarray(0, tail.pieces * STRIDE), before.pieces * STRIDE);
  for (let i = before.pieces; i < before.pieces + tail.pieces; i++)
    data[i * STRIDE + 1] = (data[i * STRIDE + 1] as number) + part.length;
  return { data, pieces: before.pieces + tail.pieces, length: part.length + tail.length };
}
