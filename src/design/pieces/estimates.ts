import { materialOf } from '../../job/tables/materials.js';
import type { Tube } from '../../job/job.js';
import type { CutList } from './cut-list.js';

/** What the estimates are made from. Every figure can be given; a welder's own are better than any of these. */
export interface WeldingFigures {
  /** Along the seam, mm / min. Hand TIG round a small pipe: 40 to 50 in a power source's manual. */
  readonly travel: number;
  /** Fit-up, tacking and dressing of one weld, minutes. Common practice, no source: 15 with the weld itself. */
  readonly fitUp: number;
  /** Section of the bead that filler makes, mm2. Common practice, no source. */
  readonly beadSection: number;
  /** Share of the filler that stays in the weld: 0.92 to 0.98 for TIG in filler handbooks. */
  readonly deposition: number;
  /** How often the gas in the tube is changed before welding. 8: 70 ppm of oxygen left if it mixes perfectly. */
  readonly purgeChanges: number;
  /** Argon for the purge, litres / min. 5 in manuals and a gas company's handbook. */
  readonly purgeFlow: number;
}

export const usualWelding: WeldingFigures = {
  travel: 45,
  fitUp: 12,
  beadSection: 3,
  deposition: 0.95,
  purgeChanges: 8,
  purgeFlow: 5,
};

/** Arc time of a seam, minutes. */
export const arcTime = (seam: number, { travel }: WeldingFigures): number => seam / travel;

/** Filler for a seam, kg: bead section x length x density / deposition. */
export const fillerMass = (seam: number, density: number, figures: WeldingFigures): number =>
  (figures.beadSection * seam * density * 1e-9) / figures.deposition;

/** Oxygen (ppm) left of the air's 20.95 % after some changes of volume, perfectly mixed: falls as exp(-changes). */
export const oxygenLeft = (changes: number): number => 209_500 * Math.exp(-changes);

/** Purge of a tube of some length before it is welded. */
export function purgeOf(
  { od, wall }: Tube,
  length: number,
  { purgeChanges, purgeFlow }: WeldingFigures,
): { readonly volume: number; readonly gas: number; readonly minutes: number } {
  const volume = Math.PI * (od / 2 - wall) ** 2 * length * 1e-6;
  const gas = volume * purgeChanges;
  return { volume, gas, minutes: gas / purgeFlow };
}

/** What the header takes to weld, in all. Times in minutes, gas in litres, masses in kg. */
export interface Estimates {
  readonly welds: number;
  readonly seam: number;
  readonly arc: number;
  readonly fitUp: number;
  /** undefined where the material is not in the tables. */
  readonly filler: number | undefined;
  /** Filling every primary with argon once, then keeping it flowing while the arc burns. */
  readonly purge: number;
  readonly argon: number;
  readonly minutes: number;
  readonly mass: number | undefined;
  readonly cost: number;
}

/** Estimates for a cut list, by plain formulas from the figures given. */
export function estimatesOf(list: CutList, tube: Tube, figures: WeldingFigures = usualWelding): Estimates {
  const mine = list.welds.filter(({ kind }) => kind !== 'collector');
  const seam = mine.reduce((sum, { length }) => sum + length, 0);
  const length = list.pieces.reduce((sum, piece) => sum + piece.length, 0);
  const density = materialOf(tube.material)?.density;
  const arc = arcTime(seam, figures);
  const fitUp = mine.length * figures.fitUp;
  const fill = purgeOf(tube, length, figures);
  return {
    welds: mine.length,
    seam,
    arc,
    fitUp,
    filler: density === undefined ? undefined : fillerMass(seam, density, figures),
    purge: fill.minutes,
    argon: fill.gas + arc * figures.purgeFlow,
    minutes: arc + fitUp + fill.minutes,
    mass: list.totals.mass,
    cost: list.totals.cost,
  };
}
