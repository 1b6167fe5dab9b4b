import { INCH } from '../../base/units.js';

/** Walls in inches by Birmingham wire gauge number, the gauge in which tube walls are sold. */
const inches: Readonly<Record<number, number>> = {
  10: 0.134,
  11: 0.12,
  12: 0.109,
  13: 0.095,
  14: 0.083,
  15: 0.072,
  16: 0.065,
  17: 0.058,
  18: 0.049,
  19: 0.042,
  20: 0.035,
};

/**
 * Tube walls (mm) by Birmingham (Stubs) wire gauge, 10 to 20. Not for sheet or plate, whose gauges are
 * others and differ by material.
 *
 * @see BWG tables of two reference pages that agree; the same walls stand in ASTM A554 tube lists
 */
export const tubeGauges: Readonly<Record<number, number>> = Object.fromEntries(
  Object.entries(inches).map(([gauge, wall]) => [gauge, wall * INCH]),
);
