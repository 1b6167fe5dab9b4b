/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import * as z from 'zod/mini';
import type { Vector } from '../../base/vectors.js';
import type { Leaf } from './leaf-base.js';
import type { Leaves } from './leaf.js';
import { noted } from './notes.js';

/** A section: keys with values, and no others. */
export function section<S extends Record<string, z.core.$ZodType>>(says: string, shape: S) {
  return noted(z.strictObject(shape), { description: says });
}

/** A list, with how many members it may have. */
export function list<S extends z.core.$ZodType>(says: string, member: S, low = 0, high = 400) {
  return noted(z.array(member).check(z.minLength(low), z.maxLength(high)), { description: says });
}

/** One value for each of a fixed number of places. */
export function fixed<const S extends readonly [z.core.$ZodType, ...z.core.$ZodType[]]>(
  says: string,
  members: S,
  example: string,
) {
  return noted(z.tuple(members as unknown as [z.core.$ZodType, ...z.core.$ZodType[]]), {
    description: says,
    example,
  }) as unknown as Leaf<{
    -readonly [I in keyof S]: z.core.output<S[I]>;
  }>;
}

/** One of several ways to write a value. */
export function either<const S extends readonly [z.core.$ZodType, z.core.$ZodType, ...z.core.$ZodType[]]>(
  says: string,
  ways: S,
  example?: string,
) {
  return noted(z.union(ways), { description: says, ...(example === undefined ? {} : { example }) });
}

export const maybe = z.optional;

const toVector = z.transform((p: { right: number; up: number; out: number }): Vector => [
  p.right,
  p.up,
  p.out,
]);

/** A place in the engine's frame: `[right, up, out]`, or the same by name. */
export function place(l: Leaves, says: string): Leaf<Vector> {
  const one = (which: string): Leaf<number> =>
    l.length({ says: `how far ${which} it stands`, low: -10_000, high: 10_000 });
  const example = '[0, -400, 180]';
  return either(
    `${says}: [right, up, out], measured from the centre of port 1`,
    [
      fixed(says, [one('right'), one('up'), one('out')], example),
      noted(z.pipe(section(says, { right: one('right'), up: one('up'), out: one('out') }), toVector), {
        description: says,
      }),
    ],
    example,
  ) as unknown as Leaf<Vector>;
}

/** A direction in the engine's frame; only the proportion of its numbers counts. */
export function heading(l: Leaves, says: string): Leaf<Vector> {
  const one = (which: string): Leaf<number> =>
    l.number({ says: `its part toward ${which}`, low: -1e6, high: 1e6 });
  const example = '[0, -1, 0]';
  return either(
    `${says}: [right, up, out]`,
    [
      fixed(says, [one('right'), one('up'), one('out')], example),
      noted(z.pipe(section(says, { right: one('right'), up: one('up'), out: one('out') }), toVector), {
        description: says,
      }),
    ],
    example,
  ) as unknown as Leaf<Vector>;
}

/** A place on a face: `[right, up]`. */
export function spot(l: Leaves, says: string): Leaf<[number, number]> {
  const one = (which: string): Leaf<number> =>
    l.length({ says: `how far ${which} it stands`, low: -10_000, high: 10_000 });
  return fixed(`${says}: [right, up]`, [one('right'), one('up')], '[-33, 20]');
}
