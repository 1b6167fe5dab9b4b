import { tidy } from '../base/numbers.js';
import type { Tube } from '../job/job.js';
import type { TubePart } from './parts.js';
import type { CentreLines } from './routes-by-hand.js';

/**
 * The primaries as tubes, each from the flange's tube side to its own end at the slot; of one that stands up to a
 * weld already, the rest.
 */
export const primaryTubes = (
  tube: Tube,
  lines: CentreLines,
  built: Readonly<Record<string, { readonly length: number }>> = {},
): readonly TubePart[] =>
  [...lines].map(([id, line]) => ({
    kind: 'tube',
    name: `primary-${id}`,
    family: 'primary',
    title: `Primary ${id}`,
    od: tube.od,
    wall: tube.wall,
    material: tube.material,
    pieces: line.pieces,
    length: line.length,
    remarks: [`Centre line ${tidy(line.length, 2)} mm from ${beginning(built[id])} to the tube's own end.`],
  }));

const beginning = (built: { readonly length: number } | undefined): string =>
  built === undefined
    ? "the flange's tube side"
    : `the weld at ${tidy(built.length, 1)} mm, up to which it stands,`;
