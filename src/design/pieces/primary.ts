import { turnOf } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import { stockOf, type CuttingRules } from './rules.js';

/**
 * A stretch of the centre line, by its stations, in which no weld may stand. Its ends themselves may carry one.
 * What lies there, and the key that would free it, are for messages.
 */
export type NoWeld = readonly [
  from: number,
  to: number,
  why?: { readonly what: string; readonly path: string },
];

/** A primary as it is to be cut. */
export interface PrimaryToCut {
  /** P1, P2, ... */
  readonly id: string;
  /** Straights and bends in turn, mm and rad. */
  readonly rows: readonly CentreLineRow[];
  /** Its key in the job, for messages: `primaries.by_hand.P1`. */
  readonly path: string;
  readonly noWeld: readonly NoWeld[];
  /** How far the tube reaches on before the start of the route, into a socket or through the flange, mm. */
  readonly intoFlange: number;
  /** What an oblique first cut needs beyond the tube's axis, mm: half the diameter x tan(lean). */
  readonly oblique: number;
  /** Welded onto a part of it that stands already, instead of to the flange. */
  readonly onBuilt?: boolean;
  /** Its start counted from the flange, mm: more than 0 on a part that stands already. Its own stations count from its start. */
  readonly begins?: number;
  /** How deep its end sits in a sleeve at the collector, mm; 0 where it is welded. */
  readonly slip: number;
}

/** A straight between two bends, or at an end. */
export interface Straight {
  /** Stock needed for it along the axis: at the flange with what reaches into it and the oblique cut. */
  readonly length: number;
  /** Station where it begins; below 0 at the flange, where it reaches beyond the route's start. */
  readonly at: number;
  /**
   * How much of that lies before the flange's seam where the tube is shortest: what reaches into the flange, and
   * twice the oblique cut, as its short side is so much shorter than the axis. 0 away from the flange.
   */
  readonly sunk: number;
  /** Its row in the route. */
  readonly row: number;
}

/** A bend that is cut as one, though the route may have it in several rows. */
export interface Bend {
  readonly clr: number;
  readonly angle: number;
  /** Against the bend before, rad. */
  readonly clock: number;
  readonly at: number;
  readonly row: number;
}

/** A primary's straights and bends in turn: one more straight than bends. */
export interface Course {
  readonly straights: readonly Straight[];
  readonly bends: readonly Bend[];
  /** Of the route. */
  readonly length: number;
}

/**
 * The course of a primary. Neighbouring bends of one radius in one plane, turning the same way, with no
 * straight between them, are one bend where some stock bend is large enough for both.
 */
export function courseOf(primary: PrimaryToCut, rules: CuttingRules): Course {
  const straights: Straight[] = [];
  const bends: Bend[] = [];
  let at = 0;
  const beyond = primary.intoFlange + primary.oblique;
  primary.rows.forEach((row, index) => {
    if ('straight' in row) {
      const [reach, sunk] = index === 0 ? [beyond, beyond + primary.oblique] : [0, 0];
      straights.push({ length: row.straight + reach, at: at - reach, sunk, row: index });
      at += row.straight;
      return;
    }
    const [before, between] = [bends.at(-1), straights.at(-1)];
    if (before && between && between.length <= tolerance.samePoint && runsOn(before, row, rules)) {
      straights.pop();
      bends[bends.length - 1] = { ...before, angle: before.angle + row.angle };
    } else bends.push({ ...row, at, row: index });
    at += row.clr * row.angle;
  });
  return { straights, bends, length: at };
}

/** Whether a bend carries on the one before it, and one stock bend can be both. */
function runsOn(
  before: Bend,
  row: { clr: number; angle: number; clock: number },
  rules: CuttingRules,
): boolean {
  const clock = turnOf(row.clock);
  if (Math.abs(row.clr - before.clr) > tolerance.samePoint) return false;
  if (Math.min(clock, 2 * Math.PI - clock) > tolerance.sameDirection) return false;
  const both = before.angle + row.angle;
  return both < Math.PI && stockOf(rules, row.clr).some(({ room }) => room >= both);
}
