import { degrees, radians, roundTo } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import type { Vector } from '../../base/vectors.js';
import { centreLineOf, missOf, type CentreLine } from '../../geom/centre-line.js';
import { remeasured, rowsAsMade, type Measures } from './as-made.js';
import { fromFlange, type CutList, type LeftoverRow, type PieceRow, type WeldRow } from './cut-list.js';
import { isNear, missProblem, overOf, wordsOf } from './as-cut-told.js';
import { freeMeasures, type FreeMeasure } from './free-measures.js';
import { nearestEnd, straying } from './nearest-end.js';
import type { CuttingRules } from './rules.js';
import { shiftedOnSticks } from './stick-shifts.js';

type Limits = Pick<CuttingRules, 'saw' | 'leastInsert' | 'leastInsideArc'> & {
  /** What the last straight keeps for its slip joint, mm. */
  readonly slip: number;
};

/**
 * Works the pieces of one primary as they measure into the cut list: by how much it would miss its slot, and
 * which lengths and turns of what can still be chosen bring it nearest. Lengths are given to 0.1 mm and turns to
 * 0.1 deg, and the miss told is with these.
 * @param line the primary as routed
 * @param as measures of its pieces by name, as entered
 */
export function bringNearest(
  list: CutList,
  primary: string,
  line: CentreLine,
  as: ReadonlyMap<string, Measures>,
  limits: Limits,
): { readonly list: CutList; readonly problem: Problem } {
  const change = (pieces: readonly PieceRow[], to: ReadonlyMap<string, Measures>): readonly PieceRow[] =>
    pieces.map((piece) => remeasured(piece, to.get(piece.id) ?? {}, list.od));
  const own = (pieces: readonly PieceRow[]): readonly PieceRow[] =>
    pieces.filter((piece) => piece.primary === primary);
  const marched = (pieces: readonly PieceRow[]): CentreLine =>
    centreLineOf(line.start, rowsAsMade(own(pieces)));
  const made = change(list.pieces, as);
  const before = missOf(marched(made).end, line.end);

  const free = freeMeasures({ ...list, pieces: made }, primary, limits);
  const measures = (values: readonly number[]): Map<string, Measures> => {
    const to = new Map<string, Measures>();
    free.forEach(({ piece, key }, i) => to.set(piece, { ...to.get(piece), [key]: values[i] }));
    return to;
  };
  const choices = free.map((one) => ({ ...one, turn: one.key === 'clock' }));
  const best = nearestEnd(choices, (values) => marched(change(made, measures(values))).end, line.end);
  const values = best.map((value, i) => readable(value, free[i]));
  const changed = free.filter((one, i) => Math.abs((values[i] ?? 0) - one.planned) > tolerance.samePoint);
  const names = new Set(changed.map(({ piece }) => piece));
  const cut = change(made, measures(values));
  const after = marched(cut);
  const miss = missOf(after.end, line.end);
  const asCut = isNear(miss) ? 're-cut' : 're-cut, too far';
  const recut = cut.map((piece): PieceRow =>
    names.has(piece.id) && piece.asCut === undefined ? { ...piece, asCut } : piece,
  );
  const words = changed.map((one) => wordsOf(one, values[free.indexOf(one)] ?? 0));
  const stands = restationed(recut, primary).findLast(({ id }) => as.has(id));
  const told = missProblem(primary, [...as.keys()], before, miss, words, {
    longer: after.length - line.length,
    stray: straying(pointsOf(after), pointsOf(line)),
    station: stands?.id ?? '',
    upTo: stands === undefined ? 0 : fromFlange(list, { primary, at: stands.stations[1] }),
    over: own(list.pieces).flatMap((piece) => overOf(piece, as.get(piece.id))),
  });
  const shifted = shiftedOnSticks(recut, made, list.leftovers);
  const pieces = restationed(shifted.pieces, primary);
  const longerLegs = (stock: string): number =>
    recut.reduce((sum, piece, i) => {
      const leg = piece.kind === 'bend' && piece.stock === stock && names.has(piece.id);
      return leg ? sum + grown(piece, made[i]) : sum;
    }, 0);
  return {
    list: {
      ...list,
      pieces,
      welds: restood(list.welds, pieces, primary),
      leftovers: shifted.leftovers.flatMap((left) =>
        shorter(left, longerLegs(left.stock), limits.leastInsert),
      ),
    },
    problem: told,
  };
}

/** What a tape and a protractor can be set to, inside the limits. */
function readable(value: number, free: FreeMeasure | undefined): number {
  const rounded = free?.key === 'clock' ? radians(roundTo(degrees(value), 1)) : roundTo(value, 1);
  const keeps = free !== undefined && rounded >= free.low && rounded <= free.high;
  const same =
    free !== undefined && Math.abs(rounded - free.planned) < (free.key === 'clock' ? radians(0.06) : 0.06);
  return same ? free.planned : keeps ? rounded : value;
}

/** How much more of its stock a piece takes, mm. */
const grown = (piece: PieceRow, before: PieceRow | undefined): number =>
  Math.max(0, piece.length - (before?.length ?? 0));

/** Straights that are left are so much shorter; too short, they are gone. What is sawn shorter is not counted back. */
function shorter(left: LeftoverRow, by: number, least: number): readonly LeftoverRow[] {
  if (left.kind === 'bend' || by <= 0) return [left];
  return left.length - by < least ? [] : [{ ...left, length: left.length - by }];
}

/** Pieces stand where those before them end. */
function restationed(pieces: readonly PieceRow[], primary: string): readonly PieceRow[] {
  let at: number | undefined;
  return pieces.map((piece) => {
    if (piece.primary !== primary) return piece;
    const from = at ?? -piece.intoFlange;
    at = from + piece.length;
    return { ...piece, stations: [from, at] as const };
  });
}

const restood = (
  welds: readonly WeldRow[],
  pieces: readonly PieceRow[],
  primary: string,
): readonly WeldRow[] =>
  welds.map((weld) => {
    const before = pieces.find((piece) => piece.primary === primary && piece.weldDown === weld.id);
    return before === undefined ? weld : { ...weld, at: before.stations[1] };
  });

/** Points along a tube, no more than 2 mm apart. */
function pointsOf(line: CentreLine): readonly Vector[] {
  const count = Math.ceil(line.length / 2);
  return Array.from({ length: count + 1 }, (_, i) => line.poseAt((line.length * i) / count).at);
}
