import { tolerance } from '../../base/tolerance.js';
import type { LeftoverRow, PieceRow } from './cut-list.js';

type Straight = PieceRow & { readonly kind: 'straight' };

/** Whether a piece is sawn already. */
export const isCut = ({ asCut }: PieceRow): boolean => asCut === 'good' || asCut === 'as cut';

/** The pieces sawn from the same stick behind a straight; none where it comes off the leg of a bend. */
function behind(piece: Straight, pieces: readonly PieceRow[]): readonly Straight[] {
  if (piece.end !== undefined) return [];
  return pieces.flatMap((one) =>
    one.kind === 'straight' && one.stock === piece.stock && one.from > piece.from ? [one] : [],
  );
}

/** Whether a straight can be sawn longer by what its stick has left: nothing behind it may be sawn already. */
export const canGrow = (piece: Straight, pieces: readonly PieceRow[]): boolean =>
  piece.end === undefined && !behind(piece, pieces).some(isCut);

/**
 * Straights of new lengths on their sticks: what lies behind one moves on (or back) as much, and what is left of
 * the stick is so much less (or more). Where a piece behind is sawn already, nothing moves: a shorter one
 * leaves waste.
 * @param before the same pieces as they were
 */
export function shiftedOnSticks(
  pieces: readonly PieceRow[],
  before: readonly PieceRow[],
  leftovers: readonly LeftoverRow[],
): { readonly pieces: readonly PieceRow[]; readonly leftovers: readonly LeftoverRow[] } {
  const shifts = new Map<string, number>();
  const taken = new Map<string, number>();
  const plus = (sums: Map<string, number>, key: string, by: number): void =>
    void sums.set(key, (sums.get(key) ?? 0) + by);
  pieces.forEach((piece, i) => {
    const by = piece.length - (before[i]?.length ?? piece.length);
    if (piece.kind === 'bend' || Math.abs(by) <= tolerance.samePoint || isCut(piece)) return;
    if (!canGrow(piece, pieces)) return;
    plus(taken, piece.stock, by);
    for (const one of behind(piece, pieces)) plus(shifts, one.id, by);
  });
  return {
    pieces: pieces.map((piece) => {
      const by = shifts.get(piece.id) ?? 0;
      return piece.kind === 'bend' || by === 0
        ? piece
        : { ...piece, from: piece.from + by, to: piece.to + by };
    }),
    leftovers: leftovers.map((left) =>
      left.kind === 'bend' ? left : { ...left, length: left.length - (taken.get(left.stock) ?? 0) },
    ),
  };
}
