import { cross3, direction, dot3, scale, squareTo, subtract, type Vector } from '../../base/vectors.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { HandErrors } from '../../job/shop.js';
import type { PieceRow } from './cut-list.js';
import { handMotions, type Motion } from './expected-miss.js';

/** A place where a fixture holds a primary. */
export interface HeldAt {
  readonly station: number;
  /** How far the tube may stand off there, in each of two directions across it, one standard deviation, mm. */
  readonly play: number;
}

/**
 * The expected miss at the collector of a primary tacked in a fixture, root mean square, mm. The same errors of
 * the hand as without one, but only those of them count that leave the tube within its cradles: every joint
 * gives as much as it is loose. That is least squares: the errors' covariance, given what the cradles say.
 * Beyond the last cradle nothing is held, and the hand's errors count in full.
 * @see a straight tube on paper and weighted trials, tests/design/pieces/held-miss.test.ts
 */
export function heldMiss(
  pieces: readonly PieceRow[],
  line: CentreLine,
  errors: HandErrors,
  held: readonly HeldAt[],
): number {
  const motions = handMotions(pieces, line);
  const size = motions.length;
  // Covariance of the motions, each in standard deviations of its own: independent to begin with.
  const spread = motions.map((_, i) => Float64Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)));
  const times = (row: readonly number[]): number[] =>
    spread.map((own) => row.reduce((sum, value, j) => sum + value * (own[j] ?? 0), 0));
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * (b[i] ?? 0), 0);

  for (const { station, play } of held) {
    const { at, direction: flow } = line.poseAt(station);
    const moved = motions.map((motion) => (motion.station > station ? nowhere : movedBy(motion, at, errors)));
    const across = direction(squareTo(Math.abs(flow[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], flow));
    for (const way of [across, cross3(flow, across)]) {
      const row = moved.map((one) => dot3(one, way));
      const gain = times(row);
      const total = dot(row, gain) + play * play;
      if (!(total > 0)) continue;
      for (const [i, own] of spread.entries())
        for (let j = 0; j < size; j++) own[j] = (own[j] ?? 0) - ((gain[i] ?? 0) * (gain[j] ?? 0)) / total;
    }
  }
  const atEnd = motions.map((motion) => movedBy(motion, line.end.at, errors));
  const squares = ([0, 1, 2] as const).map((axis) => {
    const row = atEnd.map((one) => one[axis]);
    return dot(row, times(row));
  });
  return Math.sqrt(
    Math.max(
      0,
      squares.reduce((sum, one) => sum + one, 0),
    ),
  );
}

const nowhere: Vector = [0, 0, 0];

/** How far a point downstream moves for one standard deviation of a motion. */
function movedBy({ kind, times, axis, through, per }: Motion, at: Vector, errors: HandErrors): Vector {
  return scale(through ? cross3(axis, subtract(at, through)) : axis, per * times * errors[kind]);
}
