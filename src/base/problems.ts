import { pageOf, type Code } from './codes/index.js';

/** Where in the user's own files something stands. Lines and columns count from 1. */
export interface Place {
  readonly file?: string;
  /** Path of the key in the job: `ports.row.pitch`, `studs.at.3`. */
  readonly path?: string;
  readonly line?: number;
  readonly column?: number;
}

/** Something that the user must know, in the words of the bench. */
export interface Problem {
  readonly code: Code;
  /** An error stops the build; a warning and a note are told and the build goes on. */
  readonly severity: 'error' | 'warning' | 'note';
  /** What was found, with the limit and the unit. */
  readonly what: string;
  /** What goes wrong at the bench if it stays so. */
  readonly why: string;
  /** The smallest change that cures it, with a number. */
  readonly fix: string;
  readonly place?: Place;
}

/** A value, where there is one, and all that is to be told about it. */
export interface Outcome<T> {
  readonly value: T | undefined;
  readonly problems: readonly Problem[];
}

/** Thrown where the work cannot go on: carries problems, never a stack trace for the user. */
export class Refusal extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => `${p.code}: ${p.what}`).join('; '));
    this.name = 'Refusal';
    this.problems = problems;
  }
}

export const isError = (problem: Problem): boolean => problem.severity === 'error';

/** The exit code a list of problems asks for: 0 none, 2 the job is wrong, 3 right but cannot be made, 1 our bug. */
export function exitCodeOf(problems: readonly Problem[]): 0 | 1 | 2 | 3 {
  const codes = problems.filter(isError).map((p) => pageOf(p.code).exit);
  if (codes.includes(1)) return 1;
  if (codes.includes(2)) return 2;
  return codes.includes(3) ? 3 : 0;
}
