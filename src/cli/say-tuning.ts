import { tidy } from '../base/numbers.js';
import type { TuningAdvice } from '../design/tuning/index.js';
import type { Paint } from './paint.js';

/** Width of the column of formulas. */
const COLUMN = 54;

/** Length and bore by published formulas, as a band to think with; nothing where there is none. */
export function tuningLines(advice: TuningAdvice | undefined, paint: Paint): string[] {
  if (advice === undefined) return [];
  const { lengths, length, apart, window, bores, bore, tube, assumed } = advice;
  const row = (what: string, low: number, high: number, digits: number): string =>
    `  ${what.padEnd(COLUMN)} ${tidy(low, digits)} to ${tidy(high, digits)} mm`;
  return [
    '',
    paint.strong('Length and bore, as the books have it'),
    ...lengths.map(({ formula, low, high }) => row(`length, ${formula}`, low, high, 0)),
    row('length, all together', length.low, length.high, 0),
    ...(window === undefined
      ? []
      : [`  this job's length, ${tidy(window.low, 0)} to ${tidy(window.high, 0)} mm, is ${window.standing}`]),
    ...bores.map(({ formula, low, high }) => row(`bore, ${formula}`, low, high, 1)),
    row('bore, all together', bore.low, bore.high, 1),
    ...(tube === undefined ? [] : [`  this tube's bore, ${tidy(tube.bore, 1)} mm, is ${tube.standing}`]),
    `  assumed: ${assumed.join('; ')}`,
    `  The formulas disagree with each other by a factor of ${tidy(apart, 1)}: they start a trial, and a dynamometer decides.`,
  ];
}
