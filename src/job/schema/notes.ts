import type * as z from 'zod/mini';

/**
 * What is known about one key beyond its type. `description` and the members under `json` go into the JSON
 * Schema; `example` is how the value is written, for messages.
 */
export interface Note {
  readonly description: string;
  readonly example?: string;
  /** Members of the JSON Schema, for the leaves that the schema library cannot describe itself. */
  readonly json?: Readonly<Record<string, unknown>>;
}

/** The notes, by schema. */
export const notes = new WeakMap<object, Note>();

export const noted = <S extends z.core.$ZodType>(schema: S, note: Note): S => {
  notes.set(schema, note);
  return schema;
};

/** A value as it is written in the job file: short, on one line. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return `"${value.length > 60 ? `${value.slice(0, 57)}...` : value}"`;
  if (value === null) return 'nothing';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') {
    const keys = Object.keys(value).slice(0, 4).join(', ');
    return `a section (${keys === '' ? 'empty' : keys})`;
  }
  return String(value);
}
