import { readFileSync } from 'node:fs';
import path from 'node:path';
import * as z from 'zod/mini';
import type { RecordedPiece } from '../design/pieces/index.js';

const measure = z.optional(z.number());
const piece = z.object({
  id: z.string(),
  kind: z.string(),
  clr: measure,
  angle: measure,
  leg_up: measure,
  leg_down: measure,
  length: measure,
});
const record = z.object({
  planned: z.optional(z.array(piece)),
  pieces: z.array(piece),
});

/**
 * The pieces of the cut list that lies in an export folder, as they were planned. None where there is no list,
 * or none of ours: then nothing can be held against it.
 */
export function earlierPieces(folder: string): readonly RecordedPiece[] {
  let found: unknown;
  try {
    found = JSON.parse(readFileSync(path.join(folder, 'cut-list.json'), 'utf8'));
  } catch {
    return [];
  }
  const read = record.safeParse(found);
  if (!read.success) return [];
  const { planned = [], pieces } = read.data;
  // A piece that was corrected then stands among the others with its measures, or in parts with other names.
  return [...planned, ...pieces.filter(({ id }) => planned.every((one) => one.id !== id))];
}
