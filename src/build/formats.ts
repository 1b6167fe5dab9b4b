import type { FileEnding } from '../files/index.js';
import type { Part } from '../design/parts.js';

/** Every kind of file there is. */
export const formats = ['dxf', 'step', 'svg', 'stl', '3mf'] as const satisfies readonly FileEnding[];

export type Format = (typeof formats)[number];

const kindFormats: Readonly<Record<Part['kind'], readonly Format[]>> = {
  // A flat part goes to the table, the CAD and the wall.
  plate: ['dxf', 'step', 'svg'],
  // A printed part goes to the slicer and the CAD.
  cradle: ['step', '3mf', 'stl'],
  // A primary is looked at among the other solids.
  tube: ['step'],
};

/** The files of a part, or those of them that were asked for. */
export const formatsOf = (part: Part, asked: readonly Format[] | undefined): readonly Format[] =>
  kindFormats[part.kind].filter((format) => asked?.includes(format) ?? true);
