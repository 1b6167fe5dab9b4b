import { bench } from '../base/frames.js';
import { radians } from '../base/numbers.js';
import { cross3, direction, length3, squareTo, type Vector } from '../base/vectors.js';

/** Within this angle of the flow a reference points nowhere a protractor could hold, so the other one is taken. */
const TOO_NEAR = Math.sin(radians(8));

/**
 * The direction that clocking is counted from: `reference` made square to the flow, or `instead` where the
 * flow runs within 8 degrees of the reference, either way along it.
 * All are directions in the engine's frame; `flow` and `reference` are unit vectors.
 */
export function clockingZero(flow: Vector, reference: Vector, instead: Vector): Vector {
  const near = length3(cross3(flow, reference)) < TOO_NEAR;
  return direction(squareTo(near ? instead : reference, flow));
}

/** A port's clocking zero: `up` made square to the flow (`out` where the flow is within 8 degrees of up or down). */
export const portClockingZero = (flow: Vector): Vector => clockingZero(flow, bench.up, bench.out);

/** The collector's clocking zero: `out` made square to the flow (`up` where the flow is within 8 degrees of out). */
export const collectorClockingZero = (flow: Vector): Vector => clockingZero(flow, bench.out, bench.up);
