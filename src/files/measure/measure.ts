import { roundTo } from '../../base/numbers.js';

/** One thing asked of a part, and what was found when the written file was read again. */
export interface Measure {
  readonly part: string;
  /** What was measured: `hole stud 3, diameter`. */
  readonly what: string;
  /** A number, or a word where the thing is a kind (`mm`, `closed`). */
  readonly asked: number | string;
  readonly measured: number | string;
  /** `mm`, `mm2`, `mm3`, or empty for counts and words. */
  readonly unit: string;
  /** How far the two may be apart, in the unit; 0 for counts and words. */
  readonly tolerance: number;
  /** Who read the file. */
  readonly reader: string;
  readonly ok: boolean;
}

/** Gathers the measures of one part by one reader. */
export interface Gauge {
  /** A size that must be met, either way, within the tolerance. */
  size(what: string, asked: number, measured: number, unit: string, tolerance: number): void;
  /** A size that may be exceeded. */
  atLeast(what: string, asked: number, measured: number, unit: string, tolerance: number): void;
  /** A size that may not be exceeded. */
  atMost(what: string, asked: number, measured: number, unit: string, tolerance: number): void;
  /** A number of things. */
  count(what: string, asked: number, measured: number): void;
  /** A kind, in a word. */
  word(what: string, asked: string, measured: string): void;
  readonly measures: readonly Measure[];
}

/** Six decimals are told, more are noise of the arithmetic; whether a measure is good is settled before. */
function tidied<T extends number | string>(value: T): T;
function tidied(value: number | string): number | string {
  return typeof value === 'number' ? roundTo(value, 6) : value;
}

/** Starts a list of measures. A measured value that is no number fails, whatever was asked. */
export function startGauge(part: string, reader: string): Gauge {
  const measures: Measure[] = [];
  const note = (row: Omit<Measure, 'part' | 'reader'>): void => {
    const { what, asked, measured, unit, tolerance, ok } = row;
    const said = typeof measured === 'string' || Number.isFinite(measured) ? tidied(measured) : 'none';
    measures.push({
      part,
      what,
      asked: tidied(asked),
      measured: said,
      unit,
      tolerance: tidied(tolerance),
      reader,
      ok,
    });
  };
  return {
    measures,
    size: (what, asked, measured, unit, tolerance) =>
      note({ what, asked, measured, unit, tolerance, ok: Math.abs(measured - asked) <= tolerance }),
    atLeast: (what, asked, measured, unit, tolerance) =>
      note({ what, asked, measured, unit, tolerance, ok: measured >= asked - tolerance }),
    atMost: (what, asked, measured, unit, tolerance) =>
      note({ what, asked, measured, unit, tolerance, ok: measured <= asked + tolerance }),
    count: (what, asked, measured) =>
      note({ what, asked, measured, unit: '', tolerance: 0, ok: measured === asked }),
    word: (what, asked, measured) =>
      note({ what, asked, measured, unit: '', tolerance: 0, ok: measured === asked }),
  };
}
