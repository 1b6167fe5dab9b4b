import { materialOf } from '../../job/tables/materials.js';
import type { Tube } from '../../job/job.js';
import type { WeldingFigures } from '../../job/shop.js';
import type { CutList } from './cut-list.js';

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
export function estimatesOf(list: CutList, tube: Tube, figures: WeldingFigures): Estimates {
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
