import type * as z from 'zod/mini';
import type { Code } from '../../base/codes/index.js';
import { suggest } from '../../base/suggest.js';
import type { Reading } from '../reading.js';
import type { LeafFault } from './leaf-base.js';
import { membersOf, noteOf, pathsOfKey, schemaAt } from './members.js';
import { shown } from './notes.js';

type Issue = z.core.$ZodIssue;
type Schema = z.core.$ZodType;

/** What the schema's issues are told about. */
export interface Written {
  /** Of the whole job; made only when there is something to tell. */
  readonly schema: () => Schema;
  readonly data: unknown;
  readonly reading: Reading;
  /** What the whole file is called in messages: a job, unless told otherwise. */
  readonly called?: string;
}

const dotted = (path: readonly PropertyKey[]): string => path.map(String).join('.');

/** The value under a path of plain data. */
function valueAt(data: unknown, path: readonly PropertyKey[]): unknown {
  let here = data;
  for (const key of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Record<PropertyKey, unknown>)[key];
  }
  return here;
}

/** Issues of another way to write the value altogether: these say least about what was meant. */
const WRONG_FORM = 1000;

/** How far a value is from one way to write it: fewer issues, nearer. */
function distanceOf(issues: readonly Issue[]): number {
  let sum = 0;
  for (const issue of issues) {
    if (issue.code === 'invalid_union') sum += Math.min(...issue.errors.map(distanceOf));
    else if (issue.code === 'unrecognized_keys') sum += issue.keys.length;
    else if (issue.path.length === 0 && (issue.code === 'invalid_type' || wrongLeaf(issue)))
      sum += WRONG_FORM;
    else sum += 1;
  }
  return sum;
}

const wrongLeaf = (issue: Issue): boolean =>
  issue.code === 'custom' && (issue.params as LeafFault | undefined)?.code === 'job/wrong-type';

/** Tells one issue of the schema, found under `base`, in the words of the bench. */
export function tellIssue(issue: Issue, base: readonly PropertyKey[], written: Written): void {
  const path = [...base, ...issue.path];
  const input = valueAt(written.data, path);
  const tell = (code: Code, what: string, why: string, fix: string): void =>
    written.reading.error(code, dotted(path), { what: `${dotted(path)} ${what}`, why, fix });
  const note = noteOf(schemaAt(written.schema(), path));
  const meaning = note?.description ?? 'a part of the job';
  const example = note?.example;

  if (issue.code === 'unrecognized_keys') {
    for (const key of issue.keys) tellUnknownKey([...path, key], written);
    return;
  }
  const list: unknown = valueAt(written.data, path.slice(0, -1));
  if (input === undefined && Array.isArray(list)) {
    if (path.at(-1) === list.length) tellShortList(path.slice(0, -1), list.length, written);
    return;
  }
  if (input === undefined) {
    const last = String(path.at(-1));
    const needed = neededUnder(schemaAt(written.schema(), path));
    const addition = example ?? (needed === '' ? '...' : `{ ${needed} }`);
    const where = path.length > 1 ? ` under ${dotted(path.slice(0, -1))}` : '';
    const form = `add a line${where}: \`${last}: ${addition}\``;
    return tell('job/missing-key', 'is missing', `it is ${meaning}, and no default would be safe`, form);
  }
  if (issue.code === 'custom') {
    const fault = issue.params as LeafFault | undefined;
    if (fault) return tell(fault.code, fault.what, fault.why, fault.fix);
  }
  if (issue.code === 'invalid_union') {
    const nearest = [...issue.errors].sort((a, b) => distanceOf(a) - distanceOf(b))[0] ?? [];
    if (distanceOf(nearest) < WRONG_FORM) {
      for (const inner of nearest) tellIssue(inner as Issue, path, written);
      return;
    }
    const leafFaults = nearest.filter(wrongLeaf);
    if (typeof input !== 'object' && leafFaults[0]) return tellIssue(leafFaults[0] as Issue, path, written);
  }
  if (issue.code === 'too_small' || issue.code === 'too_big') {
    const limit =
      issue.code === 'too_small' ? `the least is ${issue.minimum}` : `the most is ${issue.maximum}`;
    const count = Array.isArray(input) ? input.length : 0;
    const number = String(issue.code === 'too_small' ? issue.minimum : issue.maximum);
    const fix =
      example === undefined
        ? `write ${issue.code === 'too_small' ? 'at least' : 'at most'} ${number}`
        : `write it such as ${example}`;
    return tell('job/wrong-count', `holds ${count} values; ${limit}`, `it is ${meaning}`, fix);
  }
  const fix =
    example ??
    (membersOf(schemaAt(written.schema(), path) ?? written.schema()).list
      ? `a list such as [1, 2]`
      : `a section such as { ${neededUnder(schemaAt(written.schema(), path)) || '...'} }`);
  tell(
    'job/wrong-type',
    `is ${shown(input)}, which is not how it is written`,
    `it is ${meaning}`,
    `write ${fix}`,
  );
}

const isOptional = (schema: Schema | undefined): boolean =>
  schema !== undefined && (schema as unknown as z.core.$ZodTypes)._zod.def.type === 'optional';

/** A list with too few values: told once, not for each that is missing. */
function tellShortList(path: readonly PropertyKey[], length: number, written: Written): void {
  const note = noteOf(schemaAt(written.schema(), path));
  written.reading.error('job/wrong-count', dotted(path), {
    what: `${dotted(path)} holds ${length} ${length === 1 ? 'value' : 'values'}, too few`,
    why: `it is ${note?.description ?? 'a list'}`,
    fix: `write it such as ${note?.example ?? '[1, 2]'}`,
  });
}

/** The keys that a section must have, with their examples: `width: 38, height: 34`. */
function neededUnder(schema: Schema | undefined): string {
  if (!schema) return '';
  const members = membersOf(schema);
  const needed = members.keys.filter((key) => !isOptional(members.get(key)));
  return (needed.length > 0 ? needed : members.keys.slice(0, 1))
    .slice(0, 4)
    .map((key) => {
      const member = members.get(key);
      return `${key}: ${noteOf(member)?.example ?? `{ ${neededUnder(member)} }`}`;
    })
    .join(', ');
}

/** A key with a value as it is written: `pitch: 92`. */
function asWritten(key: string, section: readonly PropertyKey[], written: Written): string {
  const schema = schemaAt(written.schema(), [...section, key]);
  return `${key}: ${noteOf(schema)?.example ?? `{ ${neededUnder(schema)} }`}`;
}

/** A key that no job has, with the nearest that one has. */
export function tellUnknownKey(path: readonly PropertyKey[], written: Written): void {
  const key = String(path.at(-1));
  const section = path.slice(0, -1);
  const known = [...new Set(membersOf(schemaAt(written.schema(), section) ?? written.schema()).keys)];
  const error = (code: Code, what: string, why: string, fix: string): void =>
    written.reading.error(code, dotted(path), { what, why, fix, at: 'key' });
  if (known.includes(key)) {
    const others = Object.keys(valueAt(written.data, section) ?? {}).filter((k) => k !== key);
    return error(
      'job/contradiction',
      `${dotted(path)} cannot stand beside ${others.join(', ')}`,
      'the value would be given in two ways at once, and nothing says which holds',
      `take out either ${key} or ${others.join(', ')}`,
    );
  }
  const where = section.length === 0 ? (written.called ?? 'a job') : dotted(section);
  const why = 'a value under an unknown key would be passed over in silence and a default made in its place';
  if (/:/.test(key)) {
    return error(
      'job/unknown-key',
      `${where} has no key "${key}": there is no space after the colon`,
      why,
      `write "${key.replace(':', ': ')}"`,
    );
  }
  const taken = Object.keys(valueAt(written.data, section) ?? {});
  if (/^\d+$/.test(key))
    return error(
      'job/unknown-key',
      `${where} has no key "${key}": it looks like what stands behind a decimal comma`,
      'a comma ends the value before it, so that would come out short',
      `write decimals with a point, such as 92.${key}`,
    );
  const meant =
    suggest(
      key,
      known.filter((k) => !taken.includes(k)),
    ) ?? suggest(key, known);
  const elsewhere = pathsOfKey(written.schema(), key);
  const hint =
    meant !== undefined
      ? ` Did you mean "${meant}"?`
      : elsewhere[0] !== undefined
        ? ` It belongs elsewhere: ${elsewhere.slice(0, 3).join(', ')}.`
        : '';
  const fix =
    meant !== undefined
      ? `write ${asWritten(meant, section, written)}, or take it out`
      : elsewhere[0] !== undefined
        ? `move it to ${elsewhere.slice(0, 3).join(' or ')}`
        : `take the line out; the ${known.length} keys of ${where} are ${known.join(', ')}`;
  error('job/unknown-key', `${where} has no key "${key}".${hint}`, why, fix);
}
