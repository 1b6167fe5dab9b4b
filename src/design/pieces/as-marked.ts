import { add, cross3, direction, scale, squareTo, turnedAbout, type Vector } from '../../base/vectors.js';
import { cosSin } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { missOf, type CentreLineStart } from '../../geom/centre-line.js';
import type { PieceRow } from './cut-list.js';
import { obliqueOf } from './marks.js';
import { faceThrough, tapeMarks, type TapeStep } from './tape-marks.js';

/** A piece as it comes out where it is cut and turned exactly at the marks that a tape can be read to. mm, rad. */
export interface MarkedPiece {
  readonly piece: string;
  readonly primary: string;
  /** Along the axis; of a bend its arc is left out. */
  readonly length: number | undefined;
  /**
   * Of a bend. A face that does not point at the bend's centre counts as an arc of the angle at which it stands
   * and a leg, below 0 where it lies short of that.
   */
  readonly bend:
    | {
        readonly angle: number;
        readonly legUp: number;
        readonly legDown: number;
        readonly clock: number;
        /** How much its angle and its clock come out over those planned. */
        readonly angleOff: number;
        readonly clockOff: number;
      }
    | undefined;
}

/** How far an end stands off: mm, and rad between the directions. */
export type EndMiss = ReturnType<typeof missOf>;

/** What rounding the marks does to one primary. */
export interface TapeEffect {
  readonly primary: string;
  /** Of its end, where everything is cut and turned exactly at its rounded marks. */
  readonly miss: EndMiss;
  /** The same where bends are turned by their degrees instead of by the mark round the tube. */
  readonly missByDegrees: EndMiss;
  readonly pieces: readonly MarkedPiece[];
}

/** What comes of cutting at rounded marks. What was entered as cut measures as it is and is not rounded. */
export function asMarked(piece: PieceRow, od: number, step: TapeStep): MarkedPiece {
  const { id, primary } = piece;
  const cut = piece.asCut === 'as cut';
  const { square, marks, clockMark } = tapeMarks(piece, od, cut ? 0 : step);
  const oblique = obliqueOf(piece, od);
  if (piece.kind === 'straight')
    return { piece: id, primary, length: (square.length ?? 0) - oblique, bend: undefined };
  const clock = cut ? piece.clock : piece.clock + ((clockMark ?? 0) - piece.clockMark) / (od / 2);
  // A mark is measured from its own end of the stock, so one from B runs against one from A.
  let [angle, legUp, legDown] = [piece.angle, 0, 0];
  marks.forEach((mark, i) => {
    const planned = piece.marks[i];
    if (planned === undefined || cut) return;
    const { angle: at, shift } = faceThrough(mark.outside, mark.inside, piece.clr, od);
    const off = at - planned.angle;
    // Away from the tangent point lengthens what lies toward that point, and shortens what lies beyond.
    const [startsHere, sign] = startOf(piece, i, mark.from);
    angle += sign * off;
    if (startsHere) legUp += sign * shift;
    else legDown += sign * shift;
  });
  if (square.legUp !== undefined) legUp += square.legUp - oblique;
  if (square.legDown !== undefined) legDown += square.legDown;
  const bend = { angle, legUp, legDown, clock, angleOff: angle - piece.angle, clockOff: clock - piece.clock };
  return { piece: id, primary, length: undefined, bend };
}

/** Whether a cut in the arc is the piece's upstream face, and whether moving it away from its end makes more of it. */
function startOf(
  piece: PieceRow & { readonly kind: 'bend' },
  mark: number,
  from: 'A' | 'B',
): readonly [startsHere: boolean, sign: 1 | -1] {
  if (piece.end !== 'middle') return [piece.legUp <= piece.legDown, 1];
  // A middle piece runs from A to B, its first mark upstream.
  return mark === 0 ? [true, from === 'A' ? -1 : 1] : [false, from === 'A' ? 1 : -1];
}

/** Where pieces end that are welded up one behind the other; straights may be below 0 by what a face lies short. */
function endOf(start: CentreLineStart, pieces: readonly MarkedPiece[], rows: readonly PieceRow[]) {
  let flow = direction(start.direction);
  let toward = direction(squareTo(start.clockReference, flow));
  let at: Vector = add(start.at, scale(flow, -(rows[0]?.intoFlange ?? 0)));
  const on = (length: number): void => void (at = add(at, scale(flow, length)));
  pieces.forEach(({ length, bend }, i) => {
    if (bend === undefined) return on(length ?? 0);
    const row = rows[i];
    const clr = row?.kind === 'bend' ? row.clr : 0;
    on(bend.legUp);
    toward = turnedAbout(toward, flow, bend.clock);
    const axis = cross3(flow, toward);
    const centre = add(at, scale(toward, clr));
    const [c, s] = cosSin(bend.angle);
    at = add(centre, add(scale(toward, -clr * c), scale(flow, clr * s)));
    [flow, toward] = [turnedAbout(flow, axis, bend.angle), turnedAbout(toward, axis, bend.angle)];
    on(bend.legDown);
  });
  return { at, direction: flow };
}

/** By how much the end of a primary stands off for rounding alone. */
export function tapeEffect(
  primary: string,
  rows: readonly PieceRow[],
  start: CentreLineStart,
  od: number,
  step: TapeStep,
): TapeEffect {
  const made = (to: TapeStep): readonly MarkedPiece[] => rows.map((piece) => asMarked(piece, od, to));
  const [exact, pieces] = [made(0), made(step)];
  const planned = endOf(start, exact, rows);
  const turned = pieces.map((piece): MarkedPiece => {
    const { bend } = piece;
    return bend === undefined ? piece : { ...piece, bend: { ...bend, clock: bend.clock - bend.clockOff } };
  });
  return {
    primary,
    miss: missOf(endOf(start, pieces, rows), planned),
    missByDegrees: missOf(endOf(start, turned, rows), planned),
    pieces,
  };
}

/** The bend of a primary whose angle comes out furthest off, if any is off at all. */
export function worstBend({
  pieces,
}: TapeEffect): { readonly piece: string; readonly off: number } | undefined {
  return pieces
    .flatMap(({ piece, bend }) => {
      const off = bend?.angleOff ?? 0;
      return Math.abs(off) > tolerance.sameDirection ? [{ piece, off }] : [];
    })
    .reduce<{ piece: string; off: number } | undefined>(
      (worst, one) => (Math.abs(one.off) > Math.abs(worst?.off ?? 0) ? one : worst),
      undefined,
    );
}
