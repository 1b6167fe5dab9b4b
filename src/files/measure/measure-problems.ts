import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import type { Measure } from './measure.js';

/** A problem for every measure that failed: such files are not handed out. */
export const problemsOfMeasures = (measures: readonly Measure[]): readonly Problem[] =>
  measures
    .filter((measure) => !measure.ok)
    .map((measure) => ({
      code: 'file/off-measure',
      severity: 'error',
      what:
        `${measure.part}, ${measure.what}: asked ${told(measure.asked)}, ` +
        `${measure.reader} found ${told(measure.measured)}${measure.unit === '' ? '' : ` ${measure.unit}`}`,
      why: 'A part made from this file would not be the part that was designed.',
      fix: 'report it with the job file; do not use the file',
    }));

const told = (value: number | string): string => (typeof value === 'number' ? tidy(value, 6) : value);
