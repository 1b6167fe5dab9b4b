type Json = Record<string, unknown>;

const kindOf = (value: unknown): string =>
  value === null
    ? 'null'
    : Array.isArray(value)
      ? 'array'
      : Number.isInteger(value)
        ? 'integer'
        : typeof value;

/**
 * The few words of JSON Schema (draft 2020-12) that a schema for people's files needs, each as its
 * specification reads. Throws on a word it does not know, so that nothing goes unchecked.
 * @returns the paths of what does not fit, empty where all does
 */
export function misfits(value: unknown, schema: Json, root: Json = schema, path = ''): string[] {
  const out: string[] = [];
  const fail = (word: string): void => void out.push(`${path} ${word}`);
  const list = Array.isArray(value) ? value : undefined;
  const object = kindOf(value) === 'object' ? (value as Json) : undefined;
  for (const [word, asked] of Object.entries(schema)) {
    switch (word) {
      case '$schema':
      case '$defs':
      case 'title':
      case 'description':
      case 'examples':
        break;
      case '$ref': {
        const name = /^#\/\$defs\/(\w+)$/.exec(asked as string)?.[1] ?? '';
        out.push(
          ...misfits(value, (root.$defs as Record<string, Json>)[name] ?? { never: name }, root, path),
        );
        break;
      }
      case 'type': {
        const kind = kindOf(value);
        const kinds = Array.isArray(asked) ? asked : [asked];
        if (!kinds.includes(kind) && !(kind === 'integer' && kinds.includes('number'))) fail('type');
        break;
      }
      case 'enum':
        if (!(asked as unknown[]).includes(value)) fail('enum');
        break;
      case 'pattern':
        if (typeof value === 'string' && !new RegExp(asked as string, 'u').test(value)) fail('pattern');
        break;
      case 'minimum':
        if (typeof value === 'number' && value < (asked as number)) fail('minimum');
        break;
      case 'exclusiveMinimum':
        if (typeof value === 'number' && value <= (asked as number)) fail('exclusiveMinimum');
        break;
      case 'maximum':
        if (typeof value === 'number' && value > (asked as number)) fail('maximum');
        break;
      case 'minItems':
        if (list && list.length < (asked as number)) fail('minItems');
        break;
      case 'maxItems':
        if (list && list.length > (asked as number)) fail('maxItems');
        break;
      case 'prefixItems':
        (asked as Json[]).forEach((one, i) => {
          if (list && i < list.length) out.push(...misfits(list[i], one, root, `${path}.${i}`));
        });
        break;
      case 'items':
        list?.slice((schema.prefixItems as Json[] | undefined)?.length ?? 0).forEach((one, i) => {
          if (asked === false) fail('items');
          else out.push(...misfits(one, asked as Json, root, `${path}.${i}`));
        });
        break;
      case 'required':
        for (const key of asked as string[]) if (object && !(key in object)) fail(`required ${key}`);
        break;
      case 'properties':
        for (const [key, one] of Object.entries(asked as Record<string, Json>)) {
          if (object && key in object) out.push(...misfits(object[key], one, root, `${path}.${key}`));
        }
        break;
      case 'additionalProperties':
        for (const key of Object.keys(object ?? {})) {
          if (key in ((schema.properties as Json | undefined) ?? {})) continue;
          if (asked === false) fail(`additional ${key}`);
          else out.push(...misfits(object?.[key], asked as Json, root, `${path}.${key}`));
        }
        break;
      case 'propertyNames':
        for (const key of Object.keys(object ?? {}))
          out.push(...misfits(key, asked as Json, root, `${path}.${key}`));
        break;
      case 'anyOf':
        if (!(asked as Json[]).some((one) => misfits(value, one, root, path).length === 0)) fail('anyOf');
        break;
      default:
        throw new Error(`no such word here: ${word}`);
    }
  }
  return out;
}
