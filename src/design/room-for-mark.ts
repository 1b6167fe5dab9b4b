import type { Point } from '../base/points.js';
import { chordsOf } from '../geom/chords.js';
import { isInside } from '../geom/loops.js';
import type { Loop } from '../geom/segments.js';

/** A box on the plate: its centre and size, mm. */
export interface Box {
  readonly centre: Point;
  readonly width: number;
  readonly height: number;
}

type Chord = readonly [Point, Point];

/** The metal that marks must lie on and the edges they must keep off, as short chords filed by place. */
export interface MarkField {
  readonly outline: Loop;
  readonly edges: readonly Loop[];
  readonly cells: ReadonlyMap<string, readonly Chord[]>;
}

/** Side of the squares that chords are filed in, mm: about the size of a word. */
const CELL = 12;

function* cellsOver(x0: number, y0: number, x1: number, y1: number): Generator<string> {
  for (let i = Math.floor(x0 / CELL); i <= Math.floor(x1 / CELL); i++)
    for (let j = Math.floor(y0 / CELL); j <= Math.floor(y1 / CELL); j++) yield `${i} ${j}`;
}

function filed(cells: Map<string, Chord[]>, chords: Iterable<Chord>): Map<string, Chord[]> {
  for (const [a, b] of chords) {
    const reach = [
      Math.min(a[0], b[0]),
      Math.min(a[1], b[1]),
      Math.max(a[0], b[0]),
      Math.max(a[1], b[1]),
    ] as const;
    for (const cell of cellsOver(...reach)) {
      const list = cells.get(cell);
      if (list === undefined) cells.set(cell, [[a, b]]);
      else list.push([a, b]);
    }
  }
  return cells;
}

const sidesOf = (points: readonly Point[]): Chord[] =>
  points.map((p, i): Chord => [p, points[(i + 1) % points.length] as Point]);

/** Lays out the field once for a plate: its outline and every edge that a mark must not touch. */
export function markField(outline: Loop, edges: readonly Loop[]): MarkField {
  const cells = new Map<string, Chord[]>();
  // Marks keep more than a millimetre off: a tenth of one is close enough for the chords.
  for (const loop of [outline, ...edges]) filed(cells, sidesOf(chordsOf(loop, 0.1)));
  return { outline, edges, cells };
}

/** The same field with one more box taken: a mark already placed. */
export function taken(field: MarkField, { centre: [x, y], width, height }: Box): MarkField {
  const [w, h] = [width / 2, height / 2];
  const corners: Point[] = [
    [x - w, y - h],
    [x + w, y - h],
    [x + w, y + h],
    [x - w, y + h],
  ];
  const cells = new Map([...field.cells].map(([cell, list]) => [cell, [...list]]));
  return { ...field, cells: filed(cells, sidesOf(corners)) };
}

/** Whether a box, grown by `clear` on every side, lies wholly on metal. */
export function isFree(field: MarkField, { centre, width, height }: Box, clear: number): boolean {
  const [x, y] = centre;
  const [w, h] = [width / 2 + clear, height / 2 + clear];
  for (const cell of cellsOver(x - w, y - h, x + w, y + h))
    for (const [a, b] of field.cells.get(cell) ?? [])
      if (meets(a, b, x - w, y - h, x + w, y + h)) return false;
  // No edge comes near, so the whole box lies where its centre does: on metal, off it, or in an opening.
  return isInside(field.outline, centre) && !field.edges.some((edge) => isInside(edge, centre));
}

/** Whether a chord meets an upright box (Liang and Barsky's clipping). */
function meets(a: Point, b: Point, x0: number, y0: number, x1: number, y1: number): boolean {
  let [t0, t1] = [0, 1];
  const clip = (p: number, q: number): boolean => {
    if (p === 0) return q >= 0;
    const t = q / p;
    if (p < 0) t0 = Math.max(t0, t);
    else t1 = Math.min(t1, t);
    return t0 <= t1;
  };
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  return clip(-dx, a[0] - x0) && clip(dx, x1 - a[0]) && clip(-dy, a[1] - y0) && clip(dy, y1 - a[1]);
}

/**
 * The free place for a box nearest to where it is wanted, found on a square spiral of `step` mm out to
 * `reach`; undefined where the plate has no such room.
 */
export function nearestRoom(
  field: MarkField,
  wanted: Box,
  clear: number,
  reach: number,
  step = 2,
): Point | undefined {
  const rings = Math.ceil(reach / step);
  let best: Point | undefined;
  let least = Infinity;
  for (let ring = 0; ring <= rings; ring++) {
    // A square ring holds places up to its corners away: stop once no later ring can be nearer.
    if (ring * step > least) break;
    for (let i = -ring; i <= ring; i++)
      for (let j = -ring; j <= ring; j += Math.abs(i) === ring || ring === 0 ? 1 : 2 * ring) {
        const far = Math.hypot(i, j) * step;
        if (far >= least || far > reach) continue;
        const centre: Point = [wanted.centre[0] + i * step, wanted.centre[1] + j * step];
        if (isFree(field, { ...wanted, centre }, clear)) [best, least] = [centre, far];
      }
  }
  return best;
}
