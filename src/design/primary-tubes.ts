import { tidy } from '../base/numbers.js';
import type { Tube } from '../job/job.js';
import type { TubePart } from './parts.js';
import type { CentreLines } from './routes-by-hand.js';

/** The primaries as tubes, each from the flange's tube side to its own end at the slot. */
export const primaryTubes = (tube: Tube, lines: CentreLines): readonly TubePart[] =>
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
    remarks: [`Centre line ${tidy(line.length, 2)} mm from the flange's tube side to the tube's own end.`],
  }));
