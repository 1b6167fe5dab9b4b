import { readYamlValue } from '../read/yaml.js';
import { suggest } from '../base/suggest.js';
import type * as z from 'zod/mini';
import { type Guess } from './job.js';
import { takeGuesses } from './guesses.js';
import { type Reading } from './reading.js';
import { membersOf, noteOf } from './schema/members.js';

/** One `--set path=value` taken apart. */
export interface Setting {
  readonly path: readonly string[];
  readonly text: string;
}

/** `studs.at[0]` and `studs.at.0` are the same. */
const keysOf = (path: string): string[] =>
  path
    .trim()
    .replace(/\[(\d+)\]/g, '.$1')
    .split('.')
    .map((key) => key.trim());

/** Where a problem with a setting is placed: not in the file, but on the command line. */
export const settingPlace = (path: string): string => `--set ${path}`;

/** Takes `path=value` apart; what has no path or no equals sign is told. */
export function settingsOf(given: readonly string[], reading: Reading): Setting[] {
  return given.flatMap((one) => {
    const equals = one.indexOf('=');
    const path = equals < 0 ? one : one.slice(0, equals);
    if (equals > 0 && keysOf(path).every((key) => key !== ''))
      return [{ path: keysOf(path), text: one.slice(equals + 1) }];
    reading.problems.push({
      code: 'job/set',
      severity: 'error',
      what: `--set "${one}" is not of the form path=value`,
      why: 'it cannot be told what to set',
      fix: 'write it such as --set ports.row.pitch=94mm, with 1 equals sign and no spaces round it',
      place: { file: settingPlace(path), path },
    });
    return [];
  });
}

/** Sets one value in a copy of the job's plain data; the path is checked against the schema on the way. */
export function applySetting(
  data: Record<string, unknown>,
  setting: Setting,
  schema: z.core.$ZodType,
  reading: Reading,
  guesses: Guess[],
): void {
  const { path, text } = setting;
  const whole = path.join('.');
  const refuse = (what: string, fix: string, code: 'job/set' | 'job/unknown-key' = 'job/set'): void => {
    reading.problems.push({
      code,
      severity: 'error',
      what,
      why: 'nothing is changed by it, and the job would be made as if it had not been said',
      fix,
      place: { file: settingPlace(whole), path: whole },
    });
  };
  let here: Record<string, unknown> | unknown[] = data;
  let form: z.core.$ZodType = schema;
  for (const [i, key] of path.entries()) {
    const members = membersOf(form);
    const above = path.slice(0, i).join('.') || 'a job';
    const member = members.get(key);
    if (!member) {
      const meant = suggest(key, members.keys);
      const right =
        meant === undefined ? undefined : [...path.slice(0, i), meant, ...path.slice(i + 1)].join('.');
      const known =
        members.keys.length > 0
          ? `the ${members.keys.length} keys of ${above} are ${members.keys.join(', ')}`
          : members.list
            ? `members of ${above} are counted from 0`
            : `${above} is 1 value, without keys under it`;
      return refuse(
        `${above} has no key "${key}"${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
        right === undefined ? known : `write --set ${right}=${text}`,
        'job/unknown-key',
      );
    }
    if (Array.isArray(here)) {
      const index = Number(key);
      if (!/^\d+$/.test(key)) {
        return refuse(
          `${above} is written as a list here, and "${key}" is no place in a list`,
          `count its members from 0: --set ${[...path.slice(0, i), '0'].join('.')}=${text}`,
        );
      }
      if (index > here.length) {
        return refuse(
          `${above} has ${here.length} members, counted from 0; there is no place ${index}`,
          `set one of 0 to ${here.length} (${here.length} adds one at the end)`,
        );
      }
    } else if (/^\d+$/.test(key) && !members.anyKey) {
      return refuse(
        `${above} is written with keys here (${Object.keys(here).join(', ')}), not as a list`,
        `name the key in place of ${key}`,
      );
    }
    const at = here as Record<string, unknown>;
    if (i === path.length - 1) {
      const read = readYamlValue(text);
      if ('reason' in read)
        return refuse(
          `the value of --set ${whole} cannot be read: ${read.reason}`,
          `write it such as --set ${whole}=${noteOf(member)?.example ?? '12'}`,
        );
      guesses.splice(
        0,
        guesses.length,
        ...guesses.filter((g) => g.path !== whole && !g.path.startsWith(`${whole}.`)),
      );
      at[key] = takeGuesses(read.value, path, reading, guesses);
      return;
    }
    const next: unknown = Object.hasOwn(at, key) ? at[key] : undefined;
    if (typeof next !== 'object' || next === null) {
      at[key] = membersOf(member).list && /^\d+$/.test(path[i + 1] ?? '') ? [] : {};
    }
    here = at[key] as Record<string, unknown> | unknown[];
    form = member;
  }
}
