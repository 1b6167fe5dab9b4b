import type { Code } from '../base/codes/index.js';
import type { Place, Problem } from '../base/problems.js';
import { formatAngle, formatLength, type LengthUnit } from '../base/units.js';
import type { DefaultTaken } from './job.js';

/** Finds where a key stands in what the user wrote. */
export type Placer = (path: string, which?: 'key' | 'value') => Place;

/** What is told about one key: `what` in full, with the limit and the unit. */
interface Told {
  readonly what: string;
  readonly why: string;
  readonly fix: string;
  /** `key` where the key itself is at fault, not its value. */
  readonly at?: 'key';
}

/**
 * What is kept while a job is read: problems and defaults taken, in the job's own unit. A value asked for
 * with its default is noted down where the job did not give it.
 */
export interface Reading {
  readonly unit: LengthUnit;
  readonly problems: Problem[];
  readonly defaults: DefaultTaken[];
  /** A length as the user reads it. */
  readonly mm: (length: number) => string;
  readonly error: (code: Code, path: string, told: Told) => void;
  readonly warn: (code: Code, path: string, told: Told) => void;
  readonly note: (code: Code, path: string, told: Told) => void;
  readonly length: (path: string, given: number | undefined, standard: number) => number;
  readonly angle: (path: string, given: number | undefined, standard: number) => number;
  readonly word: <T extends string>(path: string, given: T | undefined, standard: T) => T;
  readonly flag: (path: string, given: boolean | undefined, standard: boolean) => boolean;
  /** A value whose default is shown in words. */
  readonly other: <T>(path: string, given: T | undefined, standard: T, shown: string) => T;
}

export function startReading(unit: LengthUnit, placed: Placer): Reading {
  const problems: Problem[] = [];
  const defaults: DefaultTaken[] = [];
  const tell =
    (severity: Problem['severity']) =>
    (code: Code, path: string, { at, ...told }: Told): void => {
      problems.push({ code, severity, ...told, place: placed(path, at) });
    };
  const mm = (length: number): string => formatLength(length, unit);
  const other = <T>(path: string, given: T | undefined, standard: T, shown: string): T => {
    if (given !== undefined) return given;
    defaults.push({ path, value: shown });
    return standard;
  };
  return {
    unit,
    problems,
    defaults,
    mm,
    error: tell('error'),
    warn: tell('warning'),
    note: tell('note'),
    length: (path, given, standard) => other(path, given, standard, mm(standard)),
    angle: (path, given, standard) => other(path, given, standard, formatAngle(standard)),
    word: (path, given, standard) => other(path, given, standard, standard),
    flag: (path, given, standard) => other(path, given, standard, standard ? 'yes' : 'no'),
    other,
  };
}
