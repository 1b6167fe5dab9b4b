import { readYamlValue } from '../read/yaml.js';
import { suggest } from '../base/suggest.js';
import type * as z from 'zod/mini';
import type { Guess } from './job.js';
import { takeGuesses } from './guesses.js';
import type { Reading } from './reading.js';
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
      fix: 'write it such as --set ports.row.pitch=94mm, without spaces',
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
  const forms = formsAlong(path, schema);
  const lost = forms.findIndex((form) => form === undefined);
  if (lost >= 0) {
    const members = membersOf(forms[lost - 1] ?? schema);
    const above = path.slice(0, lost).join('.') || 'a job';
    const key = path[lost] ?? '';
    const meant = suggest(key, members.keys);
    const right = [...path.slice(0, lost), meant ?? '', ...path.slice(lost + 1)].join('.');
    const { keys, list } = members;
    const known = list
      ? `members of ${above} are counted from 0`
      : `${above} is one value, without keys under it`;
    return refuse(
      `${above} has no key "${key}"${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
      meant !== undefined
        ? `write --set ${right}=${text}`
        : keys.length > 0
          ? `the ${keys.length} keys of ${above} are ${keys.join(', ')}`
          : known,
      'job/unknown-key',
    );
  }
  const read = readYamlValue(text);
  if ('reason' in read) {
    const example = noteOf(forms.at(-1))?.example ?? '12';
    return refuse(
      `the value of --set ${whole} cannot be read: ${read.reason}`,
      `write it such as --set ${whole}=${example}`,
    );
  }
  let here: Record<string, unknown> = data;
  for (const [i, key] of path.entries()) {
    const above = path.slice(0, i).join('.') || 'a job';
    const index = /^\d+$/.test(key);
    if (Array.isArray(here)) {
      const list: unknown[] = here;
      if (!index) {
        const first = [...path.slice(0, i), '0'].join('.');
        return refuse(
          `${above} is written as a list here, and "${key}" is no place in a list`,
          `count its members from 0: --set ${first}=${text}`,
        );
      }
      if (Number(key) > list.length) {
        return refuse(
          `${above} has ${list.length} members, counted from 0; there is no place ${key}`,
          `set one of 0 to ${list.length} (${list.length} adds one at the end)`,
        );
      }
    } else if (index && membersOf(forms[i - 1] ?? schema).list) {
      return refuse(
        `${above} is written with keys here (${Object.keys(here).join(', ')}), not as a list`,
        `name the key in place of ${key}`,
      );
    }
    if (i === path.length - 1) {
      const kept = guesses.filter((g) => g.path !== whole && !g.path.startsWith(`${whole}.`));
      guesses.splice(0, guesses.length, ...kept);
      here[key] = takeGuesses(read.value, path, reading, guesses);
      return;
    }
    const next: unknown = Object.hasOwn(here, key) ? here[key] : undefined;
    if (typeof next !== 'object' || next === null) here[key] = /^\d+$/.test(path[i + 1] ?? '') ? [] : {};
    here = here[key] as Record<string, unknown>;
  }
}

/** The schema of each key along a path; undefined from the first that no job has. */
function formsAlong(path: readonly string[], schema: z.core.$ZodType): (z.core.$ZodType | undefined)[] {
  let here: z.core.$ZodType | undefined = schema;
  return path.map((key) => (here = here && membersOf(here).get(key)));
}
