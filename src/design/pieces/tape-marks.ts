import { tolerance } from '../../base/tolerance.js';
import type { ArcMark, BendPieceRow, PieceRow } from './cut-list.js';
import { obliqueOf } from './marks.js';

/** What a tape can be read to, mm; 0 where nothing is rounded. */
export type TapeStep = number;

/** The lengths of a piece as they are set out with a tape, mm. */
export interface TapeMarks {
  /** Along the axis, as the whole piece is spoken of. */
  readonly length: number;
  /** What is sawn square first: a straight, or the legs that a bend keeps; with what an oblique cut takes after. */
  readonly square: {
    readonly length: number | undefined;
    readonly legUp: number | undefined;
    readonly legDown: number | undefined;
  };
  /** What is then to come off each raw leg, by stock end. */
  readonly trim: readonly [a: number | undefined, b: number | undefined];
  /** Round the tube; undefined for a straight. */
  readonly clockMark: number | undefined;
  /** The cuts in its arc, outside and inside rounded. */
  readonly marks: readonly ArcMark[];
}

/** A length on the nearest mark of a tape. */
export const onTape = (length: number, step: TapeStep): number =>
  step > 0 ? Math.round(length / step) * step : length;

/** The marks of a piece, each on the nearest division of a tape; those of an arc as pairs. */
export function tapeMarks(piece: PieceRow, od: number, step: TapeStep): TapeMarks {
  const oblique = obliqueOf(piece, od);
  if (piece.kind === 'straight') {
    const square = onTape(piece.length + oblique, step);
    return {
      length: onTape(piece.length, step),
      square: { length: square, legUp: undefined, legDown: undefined },
      trim: [undefined, undefined],
      clockMark: undefined,
      marks: [],
    };
  }
  const leg = (length: number, more: number): number | undefined =>
    length > tolerance.samePoint ? onTape(length + more, step) : undefined;
  const [legUp, legDown] = [leg(piece.legUp, oblique), leg(piece.legDown, 0)];
  const kept = legUp ?? legDown;
  return {
    length: onTape(piece.length, step),
    square: { length: undefined, legUp, legDown },
    trim: trimsFor(piece, legUp, legDown, oblique),
    clockMark: onTape(piece.clockMark, step),
    marks: piece.marks.map((mark) => {
      const pair = pairOnTape(mark, piece.clr, od, step);
      // From the leg as it is really sawn, so that its own rounding turns no face.
      const fromSawnEnd = mark.fromSawnEnd && {
        outside: (kept ?? 0) + pair.outside,
        inside: (kept ?? 0) + pair.inside,
      };
      return { ...mark, ...pair, fromSawnEnd };
    }),
  };
}

/** A raw leg less what is kept of it: whatever the raw leg measures, what is kept stays on the tape's mark. */
function trimsFor(
  { trim, end, reversed, legUp, legDown }: BendPieceRow,
  up: number | undefined,
  down: number | undefined,
  oblique: number,
): TapeMarks['trim'] {
  const more = [
    (up ?? 0) - (up === undefined ? 0 : legUp + oblique),
    down === undefined ? 0 : down - legDown,
  ];
  const [upMore = 0, downMore = 0] = more;
  const both = upMore + downMore;
  const [a, b] = end === 'whole' ? (reversed ? [downMore, upMore] : [upMore, downMore]) : [both, both];
  return [trim[0] === undefined ? undefined : trim[0] - a, trim[1] === undefined ? undefined : trim[1] - b];
}

/** What stands behind a cut for a face out of square to swing, mm: half a primary, roughly. */
const BEHIND = 300;

/**
 * The marks outside and inside of one cut, rounded together: of the divisions to either side of each those that
 * move the tube's end least. A face out of square swings all that is behind it, so that counts most.
 */
function pairOnTape(
  { outside, inside, angle: exact }: ArcMark,
  clr: number,
  od: number,
  step: TapeStep,
): { readonly outside: number; readonly inside: number } {
  if (!(step > 0)) return { outside, inside };
  const near = (length: number): number[] => [
    Math.floor(length / step) * step,
    Math.ceil(length / step) * step,
  ];
  let best = { outside, inside };
  let least = Infinity;
  for (const out of near(outside))
    for (const inner of near(inside)) {
      const { angle, shift } = faceThrough(out, inner, clr, od);
      const off = angle - exact;
      const moved = Math.abs(off) * BEHIND + Math.abs(off * clr + shift);
      if (moved < least) [best, least] = [{ outside: out, inside: inner }, moved];
    }
  return best;
}

/** A sawn face in an arc: the angle from the tangent point at which it stands, and how far it lies beyond that. */
export interface SawnFace {
  readonly angle: number;
  /** Along the tube, from the radial plane at that angle, away from the tangent point. */
  readonly shift: number;
}

/**
 * The face that a straight cut makes through a mark on the outside and one on the inside of a bend (mm along
 * each from the tangent point). In the bend's plane these are two points on circles round its centre, and the
 * saw goes through both: only where both marks are at one angle does it point at the centre.
 */
export function faceThrough(outside: number, inside: number, clr: number, od: number): SawnFace {
  const [out, inner] = [clr + od / 2, clr - od / 2];
  // On a bend as tight as the tube itself the inside is a point.
  const a = outside / out;
  const b = inner > tolerance.samePoint ? inside / inner : a;
  // Polar angles a and b; the cut runs from the inner point to the outer one.
  const angle = a + Math.atan2(inner * Math.sin(a - b), out - inner * Math.cos(a - b));
  return { angle, shift: inner * Math.sin(b - angle) };
}
