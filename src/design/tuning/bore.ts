import { millimetresPerInch } from './inch.js';

/** Diameter (mm) of a round bore of so much area (mm2). */
const diameterOf = (area: number): number => Math.sqrt((4 * area) / Math.PI);

/**
 * The bore (mm) through which the gas of one cylinder runs at a mean speed: A = V N / (30 v), the piston's
 * displacement in the half turn of a stroke. A magazine article's rule, area = peak-torque rpm / 88,200 x
 * displacement of one cylinder (inches), is this with 245 ft/s.
 * @param cylinder displacement of one cylinder, cm3
 * @param rpm engine speed
 * @param speed mean gas speed, m/s
 */
export const boreAtSpeed = (cylinder: number, rpm: number, speed: number): number =>
  diameterOf((cylinder * 1000 * rpm) / (30 * speed * 1000));

/**
 * The handbook rule for the bore (mm): 2.1 sqrt(cc / (25 (P + 3))), P the primary's length in inches by the
 * same book's rule. "Four-Stroke Performance Tuning", from memory.
 * @param cylinder displacement of one cylinder, cm3
 * @param length by the rule, mm
 */
export const ruleOf21 = (cylinder: number, length: number): number =>
  2.1 * Math.sqrt(cylinder / (25 * (length / millimetresPerInch + 3))) * millimetresPerInch;
