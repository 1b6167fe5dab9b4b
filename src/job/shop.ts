import { radians } from '../base/numbers.js';
import { INCH, type LengthUnit } from '../base/units.js';

/** What welding is estimated from. Every figure is a key of the job; a welder's own are better than any of these. */
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

/** How far a hand is off, one standard deviation each. mm and rad. */
export interface HandErrors {
  /** Of a sawn face along the tube. */
  readonly cut: number;
  /** Of a sawn face out of square, in each of two directions. */
  readonly tilt: number;
  /** Of a piece turned to its clocking. */
  readonly clock: number;
}

/** The tape that marks are set out with. */
export interface Tape {
  /** What it can be read to, mm; 0 where marks are not rounded. */
  readonly step: number;
  /** What it is divided in. */
  readonly unit: LengthUnit;
}

/** How a shop saws, holds and welds. */
export interface ShopSpec {
  /** What one weld costs, in the money of the rack; undefined where the job does not say. */
  readonly weldPrice: number | undefined;
  readonly welding: WeldingFigures;
  readonly hand: HandErrors;
  /** How far a cradle stands from its place, in each of two directions, one standard deviation, mm. */
  readonly cradlePlace: number;
  readonly tape: Tape;
  /** Kept between a tube that carries a weld and the room of a wrench, mm. */
  readonly weldOffWrench: number;
}

export const usualWelding: WeldingFigures = {
  travel: 45,
  fitUp: 12,
  beadSection: 3,
  deposition: 0.95,
  purgeChanges: 8,
  purgeFlow: 5,
};

/** A saw and a file without a fixture. Common practice, no source. */
export const freeHand: HandErrors = { cut: 0.5, tilt: radians(0.5), clock: radians(0.5) };

/** A base plate marked out with scriber and square, a print as printers hold it. Common practice, no source. */
export const USUAL_CRADLE_PLACE = 0.3;

/**
 * What a tape is read to: half its millimetres by eye, or the 64ths of a steel rule in inches. Common practice, no
 * source.
 */
export const usualTape = (unit: LengthUnit): number => (unit === 'in' ? INCH / 64 : 0.5);

/**
 * What a bead stands proud of a tube of 1.6 mm wall: 1 + 0.1 to 0.25 of its width of about 5 mm, so 1.5 to 2.25.
 * @see ISO 5817:2014, excess weld metal of a butt weld (502), levels B to D (from memory)
 */
export const USUAL_WELD_OFF_WRENCH = 2;
