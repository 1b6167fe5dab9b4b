import type * as z from 'zod/mini';
import { notes, type Note } from './notes.js';

type Schema = z.core.$ZodType;

/** What may stand under a key: named keys, any name (routes by primary), or places in a list. */
export interface Members {
  readonly keys: readonly string[];
  readonly list: boolean;
  readonly anyKey: boolean;
  readonly get: (key: string) => Schema | undefined;
}

const isIndex = (key: string): boolean => /^\d+$/.test(key);

/** The members of one schema, looking through optional values and alternatives. */
export function membersOf(schema: Schema): Members {
  const { def } = (schema as unknown as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case 'optional':
      return membersOf(def.innerType);
    case 'pipe':
      return membersOf(def.in);
    case 'object':
      return {
        keys: Object.keys(def.shape),
        list: false,
        anyKey: false,
        get: (key) => (Object.hasOwn(def.shape, key) ? def.shape[key] : undefined),
      };
    case 'array':
      return { keys: [], list: true, anyKey: false, get: (key) => (isIndex(key) ? def.element : undefined) };
    case 'tuple':
      return {
        keys: [],
        list: true,
        anyKey: false,
        get: (key) => (isIndex(key) ? def.items[Number(key)] : undefined),
      };
    case 'record':
      return { keys: [], list: false, anyKey: true, get: () => def.valueType };
    case 'union': {
      const ways = def.options.map(membersOf);
      return {
        keys: ways.flatMap((way) => way.keys),
        list: ways.some((way) => way.list),
        anyKey: ways.some((way) => way.anyKey),
        get: (key) => ways.map((way) => way.get(key)).find((found) => found !== undefined),
      };
    }
    default:
      return { keys: [], list: false, anyKey: false, get: () => undefined };
  }
}

/** The schema under a path, or undefined where no job has such a key. */
export function schemaAt(schema: Schema, path: readonly PropertyKey[]): Schema | undefined {
  let here: Schema | undefined = schema;
  for (const key of path) here = here && membersOf(here).get(String(key));
  return here;
}

/** The note of a schema, looking through what may be left out. */
export function noteOf(schema: Schema | undefined): Note | undefined {
  if (!schema) return undefined;
  const own = notes.get(schema);
  const { def } = (schema as unknown as z.core.$ZodTypes)._zod;
  return own ?? (def.type === 'optional' ? noteOf(def.innerType) : undefined);
}

/** Where else in the schema a key of this name stands: `flange.thickness`. At most the first few. */
export function pathsOfKey(schema: Schema, key: string, under: readonly string[] = []): string[] {
  if (under.length > 4) return [];
  const members = membersOf(schema);
  return members.keys.flatMap((name) => {
    const path = [...under, name];
    const child = members.get(name);
    const below = child ? pathsOfKey(child, key, path) : [];
    return name === key ? [path.join('.'), ...below] : below;
  });
}
