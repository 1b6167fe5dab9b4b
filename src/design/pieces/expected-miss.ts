import { tolerance } from '../../base/tolerance.js';
import { cross3, direction, dot3, scale, squareTo, subtract, type Vector } from '../../base/vectors.js';
import type { CentreLine, CentreLinePiece } from '../../geom/centre-line.js';
import type { HandErrors } from '../../job/shop.js';
import type { PieceRow } from './cut-list.js';

type BendPiece = Extract<CentreLinePiece, { kind: 'bend' }>;

/** How far the end of a primary is expected to miss the collector, root mean square, mm. */
export interface ExpectedMiss {
  readonly rms: number;
  /** What each kind of error would make by itself. */
  readonly cut: number;
  readonly tilt: number;
  readonly clock: number;
}

/** A small motion of all that is downstream of a place: how the tube's end moves for an error of 1. */
export interface Motion {
  readonly kind: keyof HandErrors;
  /** Where on the route it comes in: what lies before it stays. */
  readonly station: number;
  /** Standard deviations of the hand's error that come together here: two faces meet at a weld. */
  readonly times: number;
  /** A turn about an axis through a point by `per` for an error of 1; or a shift along the axis. */
  readonly axis: Vector;
  readonly through: Vector | undefined;
  readonly per: number;
}

/**
 * The small motions that sawing and turning by hand put into a primary, from the flange on: at every joint a
 * tilt about two axes and a clocking; for every sawn face a shift along the tube, or, where the face lies in
 * an arc, a turn about the bend's axis by error / CLR.
 */
export function handMotions(pieces: readonly PieceRow[], line: CentreLine): readonly Motion[] {
  return pieces.flatMap((piece, i): Motion[] => {
    const [from, to] = piece.stations;
    const begin = Math.min(line.length, Math.max(0, from));
    const start = line.poseAt(begin);
    const flow = start.direction;
    const across = direction(squareTo(Math.abs(flow[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], flow));
    const faces = i === 0 ? 1 : Math.SQRT2;
    const turn = (kind: 'tilt' | 'clock', axis: Vector, times: number): Motion => {
      return { kind, station: begin, times, axis, through: start.at, per: 1 };
    };
    const joint = [
      turn('tilt', across, faces),
      turn('tilt', cross3(flow, across), faces),
      turn('clock', flow, 1),
    ];
    const bend = bendOf(piece, line);
    const face = (station: number, inArc: boolean, along: Vector): Motion =>
      bend && inArc
        ? { kind: 'cut', station, times: 1, axis: bend.axis, through: bend.centre, per: 1 / bend.clr }
        : { kind: 'cut', station, times: 1, axis: along, through: undefined, per: 1 };
    const far = Math.min(line.length, Math.max(0, to));
    const end = line.poseAt(far).direction;
    const bare = (leg: number): boolean => leg <= tolerance.samePoint;
    return [
      ...joint,
      face(begin, piece.kind === 'bend' && i > 0 && bare(piece.legUp), flow),
      face(far, piece.kind === 'bend' && bare(piece.legDown), end),
    ];
  });
}

/** The bend of the centre line that a bend piece is part of. */
function bendOf(piece: PieceRow, line: CentreLine): BendPiece | undefined {
  if (piece.kind !== 'bend') return undefined;
  const middle = piece.stations[0] + piece.legUp + (piece.clr * piece.angle) / 2;
  const found = line.pieces[line.poseAt(Math.min(line.length, Math.max(0, middle))).piece];
  return found?.kind === 'bend' ? found : undefined;
}

/**
 * The expected miss of one primary that is welded up without a fixture: linearised, each error moving the end
 * by its lever, all of them independent.
 * @see a Monte-Carlo of the same motions, tests/design/pieces/expected-miss.test.ts
 */
export function expectedMiss(
  pieces: readonly PieceRow[],
  line: CentreLine,
  errors: HandErrors,
): ExpectedMiss {
  const squares = { cut: 0, tilt: 0, clock: 0 };
  for (const { kind, times, axis, through, per } of handMotions(pieces, line)) {
    const lever = through ? cross3(axis, subtract(line.end.at, through)) : axis;
    const moved = scale(lever, per * times * errors[kind]);
    squares[kind] += dot3(moved, moved);
  }
  const { cut, tilt, clock } = squares;
  return {
    rms: Math.sqrt(cut + tilt + clock),
    cut: Math.sqrt(cut),
    tilt: Math.sqrt(tilt),
    clock: Math.sqrt(clock),
  };
}
