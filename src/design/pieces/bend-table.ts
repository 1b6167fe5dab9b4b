import { distance3, type Vector } from '../../base/vectors.js';
import type { CentreLineRow } from '../../geom/centre-line.js';
import { rowsThrough, type IntersectionPoints } from '../../geom/intersection-points.js';
import { gainOf, shorterWay } from './marks.js';

/** One row of a bender's LRA table: straight before the bend, rotation before it, angle. mm, rad. */
export interface BendTableRow {
  readonly length: number;
  /** Right hand about the flow, the shorter way; 0 for the first bend, by convention. */
  readonly rotation: number;
  readonly angle: number;
  readonly clr: number;
}

/** A tube as a bender is told it. */
export interface BendTable {
  readonly rows: readonly BendTableRow[];
  /** The last straight. */
  readonly tail: number;
  /** Length of the tube before bending: all straights and all arcs along the centre line. */
  readonly developed: number;
}

/** The LRA table of rows of straights and bends. */
export function bendTableOf(rows: readonly CentreLineRow[]): BendTable {
  const table: BendTableRow[] = [];
  let length = 0;
  let developed = 0;
  for (const row of rows) {
    if ('straight' in row) {
      length += row.straight;
      developed += row.straight;
      continue;
    }
    const rotation = table.length === 0 ? 0 : shorterWay(row.clock);
    table.push({ length, rotation, angle: row.angle, clr: row.clr });
    developed += row.clr * row.angle;
    length = 0;
  }
  return { rows: table, tail: length, developed };
}

/** The LRA table of a tube through XYZ points; undefined where two points are one or the path turns back. */
export function bendTableThrough(through: IntersectionPoints): BendTable | undefined {
  const [first, second] = through.points;
  if (first === undefined || second === undefined) return undefined;
  // The first rotation is 0 whatever it is counted from: the axis that lies most across the first straight.
  const flow = [second[0] - first[0], second[1] - first[1], second[2] - first[2]].map(Math.abs);
  const least = flow.indexOf(Math.min(...flow));
  const across: Vector = [least === 0 ? 1 : 0, least === 1 ? 1 : 0, least === 2 ? 1 : 0];
  const rows = rowsThrough(through, across);
  return rows && bendTableOf(rows);
}

/** The table of the same tube bent from its other end: each rotation stays between the same two bends. */
export function fromOtherEnd({ rows, tail, developed }: BendTable): BendTable {
  const lengths = [...rows.map(({ length }) => length), tail].reverse();
  const back = [...rows].reverse();
  return {
    rows: back.map(({ angle, clr }, i) => ({
      length: lengths[i] ?? 0,
      rotation: i === 0 ? 0 : (back[i - 1]?.rotation ?? 0),
      angle,
      clr,
    })),
    tail: lengths.at(-1) ?? 0,
    developed,
  };
}

/**
 * Developed length by the corners: the polygon through the XYZ points less what each bend saves,
 * sum(2 CLR tan(A / 2) - CLR A).
 */
export function developedByCorners({ points }: IntersectionPoints, { rows }: BendTable): number {
  const round = points.slice(1).reduce((sum, point, i) => sum + distance3(point, points[i] ?? point), 0);
  return round - rows.reduce((sum, { clr, angle }) => sum + gainOf(clr, angle), 0);
}
