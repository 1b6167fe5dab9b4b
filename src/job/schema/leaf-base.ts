import * as z from 'zod/mini';
import type { Code } from '../../base/codes/index.js';
import { noted, shown } from './notes.js';

/** What is wrong with a value. `what` goes on from the key's path: `flange.thickness` + ` is -3 mm; ...`. */
export interface LeafFault {
  readonly code: Code;
  readonly what: string;
  readonly why: string;
  readonly fix: string;
}

/** A key's meaning (shown by editors and in messages) and its range: lengths mm, angles degrees. */
export interface Says {
  readonly says: string;
  readonly example?: string;
  /** Smallest and largest value allowed. */
  readonly low?: number;
  readonly high?: number;
  /** What goes wrong at the bench outside the range. */
  readonly why?: string;
}

export type Leaf<T> = z.ZodMiniType<T>;

/** A leaf of the schema from a function that reads it. */
export function leaf<T>(
  read: (given: unknown) => { value: T } | LeafFault,
  says: Says,
  json: object,
): Leaf<T> {
  const schema = z.transform((given: unknown, context): T => {
    const found = read(given);
    if ('value' in found) return found.value;
    context.issues.push({ code: 'custom', input: given, params: { ...found }, continue: false });
    return z.NEVER;
  });
  return noted(schema as unknown as Leaf<T>, {
    description: says.says,
    ...(says.example === undefined ? {} : { example: says.example }),
    json: { ...json },
  });
}

export const wrongType = (given: unknown, asked: string, example: string): LeafFault => ({
  code: 'job/wrong-type',
  what: `is ${shown(given)}; ${asked} is asked for`,
  why: 'it cannot be told which value is meant',
  fix: `write ${asked}, such as ${example}`,
});

/** A value that may say how it was come by; the reading of the file takes such brackets off beforehand. */
export const orGuessed = (...forms: object[]): { anyOf: object[] } => ({
  anyOf: [...forms, { $ref: '#/$defs/measured' }],
});

/** A value outside its range. */
export const outside = (what: string, why: string, fix: string): LeafFault => ({
  code: 'job/out-of-range',
  what,
  why,
  fix,
});
