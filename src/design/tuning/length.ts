import { degrees } from '../../base/numbers.js';
import { millimetresPerInch } from './inch.js';

/** From low to high, in the unit that its user says. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

/**
 * Speed of a small pressure wave (m/s) in a gas: sqrt(gamma R T). Textbook gas dynamics.
 * @param gamma ratio of the heats, about 1.3 to 1.4 for exhaust gas
 * @param gasConstant J / (kg K), 287 to 290
 * @param celsius of the gas
 */
export const waveSpeed = (gamma: number, gasConstant: number, celsius: number): number =>
  Math.sqrt(gamma * gasConstant * (celsius + 273.15));

/**
 * The length (mm) of pipe in which a wave runs there and back while the crank turns through an angle:
 * t = 2 L / a and angle = 6 N t (degrees, rev/min), so L = a angle / (12 N). First principles.
 * @param speed of the wave, m/s
 * @param angle of crank, rad
 * @param rpm engine speed, above 0
 */
export const thereAndBack = (speed: number, angle: number, rpm: number): number =>
  (1000 * speed * degrees(angle)) / (12 * rpm);

/**
 * The handbook rule: 850 ED / N - 3, in inches from the exhaust valve, ED the degrees of crank from the
 * valve's opening to top dead centre. "Four-Stroke Performance Tuning"; an older book has the same. From
 * memory: retellings differ in what is taken off, and from where it is measured.
 * @param takenOff inches: 3, or 0 where a retelling leaves it out
 * @returns mm
 */
export const ruleOf850 = (opensBefore: number, rpm: number, takenOff: number): number =>
  ((850 * (180 + degrees(opensBefore))) / rpm - takenOff) * millimetresPerInch;
