import { clamp, degrees } from '../../base/numbers.js';
import { dot3, subtract, type Vector } from '../../base/vectors.js';

/** Where a tube ends. */
export interface End {
  readonly at: Vector;
  readonly direction: Vector;
}

/** A number to be chosen: mm, or rad where it is a turn. */
export interface Choice {
  readonly low: number;
  readonly planned: number;
  readonly high: number;
  readonly turn: boolean;
}

/** Of two ways to end equally near, the one that changes less: how a mm or degree changed counts against one missed. */
const CHANGE = 1e-3;
const ROUNDS = 80;

/**
 * Chooses numbers within their limits so that a tube ends nearest to where it should: least squares, a degree
 * of the end's direction counting as a millimetre of its place (common practice, no source). Levenberg's
 * damped steps, kept within the limits.
 * @param endOf where the tube ends for given numbers
 */
export function nearestEnd(
  choices: readonly Choice[],
  endOf: (values: readonly number[]) => End,
  asked: End,
): readonly number[] {
  const unit = ({ turn }: Choice): number => (turn ? Math.PI / 180 : 1);
  const missed = (values: readonly number[]): number[] => {
    const end = endOf(values);
    return [
      ...subtract(end.at, asked.at),
      ...subtract(end.direction, asked.direction).map(degrees),
      ...choices.map((one, i) => (CHANGE * ((values[i] ?? 0) - one.planned)) / unit(one)),
    ];
  };
  const squares = (miss: readonly number[]): number => miss.reduce((sum, x) => sum + x * x, 0);
  let values = choices.map(({ planned }) => planned);
  let miss = missed(values);
  let damping = 1e-3;
  for (let round = 0; round < ROUNDS && damping < 1e9; round++) {
    const slopes = choices.map((one, i) => {
      const step = STEP * unit(one);
      const there = missed(values.map((value, j) => (i === j ? value + step : value)));
      return there.map((x, k) => (x - (miss[k] ?? 0)) / STEP);
    });
    // A number at its limit that would go beyond it is held there for this step.
    const pull = slopes.map((slope) => slope.reduce((sum, x, k) => sum + x * (miss[k] ?? 0), 0));
    const free = choices.map(({ low, high }, i) => {
      const [value = 0, slope = 0] = [values[i], pull[i]];
      return !((value <= low && slope > 0) || (value >= high && slope < 0));
    });
    const matrix = slopes.map((a, i) =>
      slopes.map((b, j) => (free[i] && free[j] ? product(a, b) + (i === j ? damping : 0) : i === j ? 1 : 0)),
    );
    const step = solved(
      matrix,
      pull.map((x, i) => (free[i] ? -x : 0)),
    );
    const next = values.map((value, i) => {
      const one = choices[i];
      return one ? clamp(value + (step[i] ?? 0) * unit(one), one.low, one.high) : value;
    });
    const there = missed(next);
    if (squares(there) < squares(miss)) {
      [values, miss] = [next, there];
      damping /= 5;
    } else damping *= 5;
  }
  return values;
}

/** Of the difference quotients, mm or deg. */
const STEP = 1e-5;

const product = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, k) => sum + x * (b[k] ?? 0), 0);

/** Solves a symmetric system, positive by its damping, by elimination. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  rows.forEach((pivot, i) => {
    const head = pivot[i] ?? 1;
    rows.forEach((row, j) => {
      if (j === i) return;
      const factor = (row[i] ?? 0) / head;
      for (let k = i; k < row.length; k++) row[k] = (row[k] ?? 0) - factor * (pivot[k] ?? 0);
    });
  });
  return rows.map((row, i) => (row.at(-1) ?? 0) / (row[i] ?? 1));
}

/** How far a tube strays from another, mm: the greatest distance of a point of the one to the other's points. */
export function straying(made: readonly Vector[], planned: readonly Vector[]): number {
  return Math.max(
    ...made.map((at) =>
      Math.sqrt(
        Math.min(
          ...planned.map((other) => {
            const apart = subtract(at, other);
            return dot3(apart, apart);
          }),
        ),
      ),
    ),
  );
}
