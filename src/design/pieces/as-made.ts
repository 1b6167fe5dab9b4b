import { turnOf } from '../../base/numbers.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import type { BendPieceRow, PieceRow } from './cut-list.js';
import { clockArc, setBack, shorterWay } from './marks.js';

/** New measures of a piece, mm and rad; what is left out stays. */
export interface Measures {
  readonly angle?: number | undefined;
  readonly legUp?: number | undefined;
  readonly legDown?: number | undefined;
  readonly length?: number | undefined;
  readonly clock?: number | undefined;
}

/** Straights and bends in turn of pieces welded up one behind the other, from the flange on. */
export function rowsAsMade(pieces: readonly PieceRow[]): readonly CentreLineRow[] {
  const rows: CentreLineRow[] = [];
  let straight = -(pieces[0]?.intoFlange ?? 0);
  for (const piece of pieces) {
    if (piece.kind === 'straight') {
      straight += piece.length;
      continue;
    }
    // A piece may reach into the flange by no more than it is long: rounding alone goes below 0.
    rows.push(
      { straight: Math.max(0, straight + piece.legUp) },
      { clr: piece.clr, angle: piece.angle, clock: turnOf(piece.clock) },
    );
    straight = piece.legDown;
  }
  return [...rows, { straight: Math.max(0, straight) }];
}

/** A piece with other measures: its length, trim, marks from a sawn end and mass follow. */
export function remeasured(piece: PieceRow, to: Measures, od: number): PieceRow {
  const massOf = (length: number): number | undefined =>
    piece.mass === undefined ? undefined : (piece.mass * length) / piece.length;
  if (piece.kind === 'straight') {
    const length = to.length ?? piece.length;
    return { ...piece, length, to: piece.to + length - piece.length, mass: massOf(length) };
  }
  const { legUp = piece.legUp, legDown = piece.legDown, angle = piece.angle, clock = piece.clock } = to;
  const length = legUp + piece.clr * angle + legDown;
  const [up, down] = [legUp - piece.legUp, legDown - piece.legDown];
  return {
    ...piece,
    legUp,
    legDown,
    angle,
    clock: turnOf(clock),
    clockMark: clockArc(od, shorterWay(clock)),
    setBack: setBack(piece.clr, angle),
    length,
    mass: massOf(length),
    trim: trimsOf(piece, up, down),
    marks: piece.marks.map((mark) => ({
      ...mark,
      fromSawnEnd: mark.fromSawnEnd && {
        outside: mark.fromSawnEnd.outside + up + down,
        inside: mark.fromSawnEnd.inside + up + down,
      },
    })),
  };
}

/** A longer leg leaves less to saw off. A whole piece has both; of another one leg is 0 and stays so. */
function trimsOf({ trim, end, reversed }: BendPieceRow, up: number, down: number): BendPieceRow['trim'] {
  const [a, b] = trim;
  const [longerA, longerB] = end !== 'whole' ? [up + down, up + down] : reversed ? [down, up] : [up, down];
  return [a === undefined ? a : a - longerA, b === undefined ? b : b - longerB];
}
