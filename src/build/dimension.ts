import { degrees, tidy } from '../base/numbers.js';
import { readAngle, readLength, readNumber, type LengthUnit, type Reading } from '../base/units.js';

/** A named number (or choice) of a parametric script: its value when none is given, meaning and range. */
export interface Dimension<T> {
  readonly kind: 'length' | 'angle' | 'count' | 'choice' | 'yes or no' | 'text';
  readonly value: T;
  /** What it measures, from where to where, in shop words. */
  readonly about: string;
  readonly least: number | undefined;
  readonly most: number | undefined;
  readonly choices: readonly string[];
}

/** Limits of a dimension, in its own unit. */
export interface Range {
  readonly least?: number;
  readonly most?: number;
}

const numeric = (
  kind: Dimension<number>['kind'],
  value: number,
  about: string,
  range: Range,
): Dimension<number> => ({
  kind,
  value,
  about,
  least: range.least,
  most: range.most,
  choices: [],
});

/** A length, mm. On the command line it may carry its own unit: `--pitch 94`, `--pitch "3-5/8 in"`. */
export const length = (value: number, about: string, range: Range = {}): Dimension<number> =>
  numeric('length', value, about, { least: 0, ...range });

/** An angle, degrees. */
export const angle = (value: number, about: string, range: Range = {}): Dimension<number> =>
  numeric('angle', value, about, { least: -180, most: 180, ...range });

/** A whole number of things. */
export const count = (value: number, about: string, range: Range = {}): Dimension<number> =>
  numeric('count', value, about, { least: 0, ...range });

/** One of a few words. */
export const choice = <C extends string>(
  value: NoInfer<C>,
  choices: readonly C[],
  about: string,
): Dimension<C> => ({
  kind: 'choice',
  value,
  about,
  least: undefined,
  most: undefined,
  choices,
});

/** Something that is done or left out. */
export const yesOrNo = (value: boolean, about: string): Dimension<boolean> => ({
  kind: 'yes or no',
  value,
  about,
  least: undefined,
  most: undefined,
  choices: ['yes', 'no'],
});

/** A short text, such as a name to etch. */
export const text = (value: string, about: string): Dimension<string> => ({
  kind: 'text',
  value,
  about,
  least: undefined,
  most: undefined,
  choices: [],
});

/** What came of reading a dimension from the command line. */
export type DimensionReading<T = unknown> =
  { readonly value: T } | { readonly reason: string; readonly fix: string };

/** Reads what was given for a dimension, in its unit, and holds it to its range. */
export function readDimension(
  dimension: Dimension<unknown>,
  given: string,
  unit: LengthUnit,
): DimensionReading {
  const { kind, choices } = dimension;
  if (kind === 'text') return { value: given };
  if (kind === 'choice' || kind === 'yes or no') {
    const chosen = choices.find((each) => each === given.trim().toLowerCase());
    if (chosen === undefined)
      return { reason: `"${given}" is none of ${choices.join(', ')}`, fix: `give ${choices.join(' or ')}` };
    return { value: kind === 'choice' ? chosen : chosen === 'yes' };
  }
  // Shells hand over text; a bare number is a number in the dimension's own unit.
  const plain: unknown = given.trim() !== '' && Number.isFinite(Number(given)) ? Number(given) : given;
  const reading: Reading =
    kind === 'length' ? readLength(plain, unit) : kind === 'angle' ? readAngle(plain) : readNumber(plain);
  if (!('value' in reading)) return reading;
  return inRange(dimension, kind === 'angle' ? degrees(reading.value) : reading.value);
}

function inRange({ kind, least, most }: Dimension<unknown>, value: number): DimensionReading {
  const unit = unitOf(kind);
  if (kind === 'count' && !Number.isInteger(value))
    return { reason: `${tidy(value)} is not a whole number`, fix: `give ${Math.round(value)}` };
  if (least !== undefined && value < least)
    return {
      reason: `${tidy(value)}${unit} is under the least, ${tidy(least)}${unit}`,
      fix: `give at least ${tidy(least)}`,
    };
  if (most !== undefined && value > most)
    return {
      reason: `${tidy(value)}${unit} is over the most, ${tidy(most)}${unit}`,
      fix: `give at most ${tidy(most)}`,
    };
  return { value };
}

/** The unit a dimension is counted in, with a leading space, or nothing. */
export const unitOf = (kind: Dimension<unknown>['kind']): string =>
  kind === 'length' ? ' mm' : kind === 'angle' ? ' deg' : '';

/** A dimension's name as a command-line option: `portWidth` is `--port-width`. */
export const optionName = (name: string): string =>
  name.replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`);
