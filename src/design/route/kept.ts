import { centreLineOf, missOf, type CentreLineRow } from '../../geom/centre-line.js';
import type { RouteSlot, RouteStart } from './problem.js';

/** A primary given by hand: kept as it is, the others are routed round it. */
export interface KeptPrimary {
  readonly rows: readonly CentreLineRow[];
  /** The slot it ends nearest to, by its place in the list. */
  readonly slot: number;
  /** Of its centre line, mm. */
  readonly length: number;
}

/** A hand-given primary with the slot it ends nearest to. */
export function keptPrimary(
  start: RouteStart,
  slots: readonly RouteSlot[],
  rows: readonly CentreLineRow[],
): KeptPrimary {
  const line = centreLineOf(start, rows);
  const miss = slots.map((slot) => missOf(line.end, slot).distance);
  return { rows, slot: miss.indexOf(Math.min(...miss)), length: line.length };
}
