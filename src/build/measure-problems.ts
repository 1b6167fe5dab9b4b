import { tidy } from '../base/numbers.js';
import { type Problem } from '../base/problems.js';
import { type Measure } from '../files/index.js';

/** A problem for every measure that failed: such files are not handed out. */
export const problemsOfMeasures = (measures: readonly Measure[]): readonly Problem[] =>
  measures
    .filter((measure) => !measure.ok)
    .map(({ part, what, asked, measured, unit, reader }) => ({
      code: 'build/measure',
      severity: 'error',
      what: `${part}, ${what}: asked ${told(asked)}, ${reader} found ${told(measured)}${unit === '' ? '' : ` ${unit}`}`,
      why: 'a part made from this file would not be the part that was designed',
      fix: 'nothing was replaced; report it with the job file, and build without this format meanwhile (--formats)',
    }));

const told = (value: number | string): string => (typeof value === 'number' ? tidy(value, 6) : value);
