import type { CutBy } from '../job.js';

/** What a way of cutting can do to a plate. Lengths mm. */
export interface CuttingRules {
  /** A hole smaller than this many thicknesses is marked for the drill, unless the job says cut. */
  readonly leastHolePerThickness: number;
  /** A hole smaller than this many thicknesses is always marked for the drill. */
  readonly hopelessHolePerThickness: number;
  /** No hole smaller than this is cut, however thin the plate. */
  readonly leastHole: number;
  /** Least radius of an inside corner. */
  readonly insideRadius: number;
  /** Usual least metal between two edges. */
  readonly leastWeb: number;
  /** Width of metal the cut takes, least and most. The table's own program allows for it. */
  readonly kerf: readonly [number, number];
}

/**
 * Rules by way of cutting.
 *
 * Sources: plasma holes 1.5 x thickness, a plasma design guideline (K-MINHOLE: 15 mm in 10 mm plate); laser
 * holes 1 x thickness and not under 1 mm, a laser shop's guideline; kerfs from a comparison of processes
 * (laser 0.1-0.3, waterjet 0.8-1.2, plasma 1.5-3 mm). Plasma holes under 1 x thickness always drilled, inside
 * radius and least web: common practice, no source.
 */
export const cuttingRules: Readonly<Record<CutBy, CuttingRules>> = {
  plasma: {
    leastHolePerThickness: 1.5,
    hopelessHolePerThickness: 1,
    leastHole: 3,
    insideRadius: 1.5,
    leastWeb: 8,
    kerf: [1.5, 3],
  },
  laser: {
    leastHolePerThickness: 1,
    hopelessHolePerThickness: 0.5,
    leastHole: 1,
    insideRadius: 0.5,
    leastWeb: 5,
    kerf: [0.1, 0.3],
  },
  waterjet: {
    leastHolePerThickness: 0.5,
    hopelessHolePerThickness: 0.25,
    leastHole: 2,
    insideRadius: 0.8,
    leastWeb: 5,
    kerf: [0.8, 1.2],
  },
  'saw and drill': {
    leastHolePerThickness: Infinity,
    hopelessHolePerThickness: Infinity,
    leastHole: Infinity,
    insideRadius: 3,
    leastWeb: 5,
    kerf: [1, 2],
  },
};

export const waysOfCutting = [
  'plasma',
  'laser',
  'waterjet',
  'saw and drill',
] as const satisfies readonly CutBy[];

/** The smallest round hole (mm) that is cut in a plate; smaller ones are marked for the drill. */
export const leastCutHole = (cutBy: CutBy, thickness: number): number =>
  Math.max(cuttingRules[cutBy].leastHole, cuttingRules[cutBy].leastHolePerThickness * thickness);

/** The smallest round hole (mm) that is cut even where the job says that small holes be cut. */
export const hopelessHole = (cutBy: CutBy, thickness: number): number =>
  Math.max(cuttingRules[cutBy].leastHole, cuttingRules[cutBy].hopelessHolePerThickness * thickness);
