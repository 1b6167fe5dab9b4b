import * as z from 'zod/mini';
import { rackSchema } from './rack-schema.js';
import { jobSchema } from './schema/job.js';
import { textForms } from './schema/quantities.js';
import { noteOf } from './schema/members.js';

type Json = Record<string, unknown>;

/** Beside its value, any value may say how it was come by. */
const measured = {
  description: 'a value and how it was come by; the report says which guess matters most',
  type: 'object',
  properties: { value: {}, how: { enum: ['measured', 'guessed'] } },
  required: ['value'],
  additionalProperties: false,
};

/** What the schema library cannot know: the leaves, what must be there, and how each key is explained. */
function explain(schema: z.core.$ZodTypes, json: Json): void {
  const note = noteOf(schema);
  const { def } = schema._zod;
  if (def.type === 'object') {
    const needed = Object.keys(def.shape).filter(
      (key) => (def.shape[key] as unknown as z.core.$ZodTypes)._zod.def.type !== 'optional',
    );
    if (needed.length > 0) json.required = needed;
    else delete json.required;
  }
  if (def.type === 'tuple') {
    const list = { ...json, minItems: def.items.length, maxItems: def.items.length };
    for (const key of Object.keys(json)) delete json[key];
    json.anyOf = [list, { $ref: '#/$defs/measured' }];
  }
  if (!note) return;
  Object.assign(json, note.json, { description: note.description });
  if (note.example !== undefined && def.type === 'transform') json.examples = [exampleOf(note.example)];
}

/** An example as a value: numbers stay numbers. */
function exampleOf(example: string): unknown {
  const bare = example.replace(/^"(.*)"$/, '$1');
  return bare === example && /^-?\d+(\.\d+)?$/.test(example) ? Number(example) : bare;
}

/**
 * The JSON Schema (draft 2020-12) of a job file, for editors that complete and check while one types.
 * Made from the same schema that reads jobs. Lengths are a number or a text with a unit; what needs more than
 * one key to tell (overlaps, contradictions) is left to the reading itself.
 */
export const jobJsonSchema = (): Json => jsonSchemaOf(jobSchema('mm'), 'tackwright job');

/** The JSON Schema of a rack file, in the same way from the schema that reads racks. */
export const rackJsonSchema = (): Json => jsonSchemaOf(rackSchema('mm'), 'tackwright rack');

function jsonSchemaOf(schema: z.core.$ZodType, title: string): Json {
  const made = z.toJSONSchema(schema, {
    target: 'draft-2020-12',
    io: 'input',
    unrepresentable: 'any',
    override: ({ zodSchema, jsonSchema }) => explain(zodSchema, jsonSchema as Json),
  }) as Json;
  return { ...made, title, $defs: { ...textForms, measured } };
}
