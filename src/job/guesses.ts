import { suggest } from '../base/suggest.js';
import type { Guess } from './job.js';
import { shown } from './schema/notes.js';
import type { Reading } from './reading.js';

/** Deeper than any job goes; beyond it stand references that run in a circle. */
const DEEPEST = 16;

const isMapping = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  [Object.prototype, null].includes(Object.getPrototypeOf(value) as object | null);

/** A value as it is shown among the guesses. */
const told = (value: unknown): string => (typeof value === 'object' ? JSON.stringify(value) : String(value));

/**
 * A copy of the job's plain data in which every `{ value: 92, how: guessed }` has become 92; the guesses are
 * written down. No key of a job is itself called `value`.
 */
export function takeGuesses(
  data: unknown,
  path: readonly string[],
  reading: Reading,
  guesses: Guess[],
): unknown {
  const here = path.join('.');
  if (path.length > DEEPEST) {
    reading.error('job/wrong-type', here, {
      what: `the sections are nested more than ${DEEPEST} deep, or contain themselves`,
      why: 'no job goes deeper than 8 levels, so a reference runs in a circle',
      fix: 'write the value out instead of the reference',
    });
    return undefined;
  }
  if (Array.isArray(data))
    return data.map((item, i) => takeGuesses(item, [...path, String(i)], reading, guesses));
  if (!isMapping(data)) return data;
  if (!Object.hasOwn(data, 'value')) {
    const copy: Record<string, unknown> = {};
    for (const [key, value] of Object.entries(data)) {
      const under = [...path, key];
      if (key === '__proto__') {
        reading.error('job/unknown-key', under.join('.'), {
          what: `${under.join('.')} is no key of a job`,
          why: 'a value under an unknown key would be passed over in silence',
          fix: 'take out this key',
        });
      } else copy[key] = takeGuesses(value, under, reading, guesses);
    }
    return copy;
  }
  for (const key of Object.keys(data)) {
    if (key === 'value' || key === 'how') continue;
    const meant = suggest(key, ['how']);
    reading.error('job/guess', `${here}.${key}`, {
      what: `${here} holds "${key}" beside its value${meant === undefined ? '' : '; did you mean "how"?'}`,
      why: 'beside a value only `how` it was come by may stand, and anything else would be passed over in silence',
      fix: `write ${here}: { value: ${told(data.value)}, how: measured }`,
      at: 'key',
    });
  }
  if (data.how !== undefined && data.how !== 'measured' && data.how !== 'guessed') {
    reading.error('job/guess', `${here}.how`, {
      what: `${here}.how is ${shown(data.how)}; it is either measured or guessed`,
      why: 'the report says which guess matters most, so it must know the guesses',
      fix: 'write one of: measured, guessed',
    });
  }
  if (data.how === 'guessed') guesses.push({ path: here, value: told(data.value) });
  return takeGuesses(data.value, path, reading, guesses);
}
