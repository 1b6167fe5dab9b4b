import type { March } from './line-to-solids.js';
import { pointOn, STRIDE, type PackedLine } from './packed-line.js';
import { squaredToArcEnds, squaredToPieces } from './point-to-line.js';

/** Distances (mm) asked between the centre lines of two tubes that end side by side. */
export interface AskedApart {
  readonly anywhere: number;
  /** Between a last bend and the other's last bend or last straight. Last straights are not looked at. */
  readonly nearEnds: number;
}

const here = new Float64Array(3);

/**
 * The least spare (mm) between two tubes: distance of their centre lines less the distance asked there.
 * Marches along one line with the exact distance to the other: at most floor / 2 above the truth, never below.
 * No bend of half a turn or more. A line without a bend is a last straight.
 */
export function leastSpareBetween(
  a: PackedLine,
  b: PackedLine,
  asked: AskedApart,
  { floor, stop, cap }: March,
  found?: { station: number },
): number {
  const { data, pieces } = a;
  const bend = pieces < 3 ? 0 : (data[(pieces - 2) * STRIDE + 1] as number);
  const last = data[(pieces - 1) * STRIDE + 1] as number;
  // What is asked changes where the last bend and the last straight begin: each span is marched by itself,
  // both ends included.
  let least = cap;
  let piece = 0;
  for (let span = 0; span < 3; span++) {
    let s = span === 0 ? 0 : span === 1 ? bend : last;
    const to = span === 0 ? bend : span === 1 ? last : a.length;
    for (;;) {
      while (
        piece < pieces - 1 &&
        s > (data[piece * STRIDE + 1] as number) + (data[piece * STRIDE + 2] as number)
      )
        piece++;
      pointOn(data, piece, s, here);
      const spare = spareAt(b, span, asked, here[0] as number, here[1] as number, here[2] as number);
      if (spare < least) {
        least = spare;
        if (found) found.station = s;
        if (least < stop) return least;
      }
      if (s >= to) break;
      const step = spare - least;
      s += step > floor ? step : floor;
      if (s > to) s = to;
    }
  }
  return least;
}

/** Spare of a point of the other tube's beginning (0), last bend (1) or last straight (2) to a tube. */
function spareAt(
  { data, pieces }: PackedLine,
  span: number,
  asked: AskedApart,
  x: number,
  y: number,
  z: number,
): number {
  if (span === 0) return Math.sqrt(squaredToPieces(data, 0, pieces, x, y, z)) - asked.anywhere;
  // Of a line without a bend only the last straight, and that not to another's.
  if (pieces < 3)
    return span === 2 ? Infinity : Math.sqrt(squaredToPieces(data, 0, 1, x, y, z)) - asked.nearEnds;
  const far = Math.sqrt(squaredToPieces(data, 0, pieces - 2, x, y, z)) - asked.anywhere;
  const near = Math.min(
    squaredToPieces(data, pieces - 2, span === 2 ? pieces - 1 : pieces, x, y, z),
    squaredToArcEnds(data, pieces - 2, x, y, z),
  );
  return Math.min(far, Math.sqrt(near) - asked.nearEnds);
}

/**
 * The least spare (mm) of a tube against itself: points further apart along it than `apart` keep `asked`
 * between their centre lines. Nearer points than pi x CLR cannot touch where every CLR is at least the
 * diameter (Schur's comparison theorem). At most the floor above the truth: what lies between two looks may
 * no longer count at the second.
 *
 * Marches a point s; the rest of the tube from s + apart on is cut off exactly at that station.
 */
export function leastSpareWithin(
  line: PackedLine,
  apart: number,
  asked: number,
  { floor, stop, cap }: March,
): number {
  const { data, pieces, length } = line;
  let least = cap;
  let s = 0;
  let piece = 0;
  const end = length - apart;
  if (end <= 0) return cap;
  for (;;) {
    while (
      piece < pieces - 1 &&
      s > (data[piece * STRIDE + 1] as number) + (data[piece * STRIDE + 2] as number)
    )
      piece++;
    pointOn(data, piece, s, here);
    const spare = Math.sqrt(squaredFrom(line, s + apart, here)) - asked;
    if (spare < least) {
      least = spare;
      if (least < stop) return least;
    }
    if (s >= end) return least;
    // The far part shrinks as s runs on, which only takes points away: the distance still falls by no more
    // than the way moved.
    const step = spare - least;
    s += step > floor ? step : floor;
    if (s > end) s = end;
  }
}

const cut = new Float64Array(STRIDE);
const there = new Float64Array(3);

/** Squared distance of a point to what lies from a station on. */
function squaredFrom({ data, pieces }: PackedLine, station: number, p: Float64Array): number {
  const [x, y, z] = [p[0] as number, p[1] as number, p[2] as number];
  let i = 0;
  while (i < pieces - 1 && station > (data[i * STRIDE + 1] as number) + (data[i * STRIDE + 2] as number)) i++;
  const o = i * STRIDE;
  // The piece that the station cuts: its later part, as a piece of its own.
  pointOn(data, i, station, there);
  const off = station - (data[o + 1] as number);
  cut.set(data.subarray(o, o + STRIDE));
  cut[2] = (data[o + 2] as number) - off;
  if (data[o] === 0) cut.set(there, 3);
  else {
    const clr = data[o + 12] as number;
    const [c, s] = [Math.cos(off / clr), Math.sin(off / clr)];
    for (let k = 0; k < 3; k++) {
      const [u, v] = [data[o + 6 + k] as number, data[o + 9 + k] as number];
      cut[6 + k] = c * u + s * v;
      cut[9 + k] = c * v - s * u;
    }
    cut[13] = Math.sin((cut[2] as number) / clr);
    cut[14] = Math.cos((cut[2] as number) / clr);
  }
  let best = Math.min(squaredToPieces(cut, 0, 1, x, y, z), squaredToPieces(data, i + 1, pieces, x, y, z));
  if (data[o] !== 0) best = Math.min(best, squaredToArcEnds(cut, 0, x, y, z));
  return best;
}
