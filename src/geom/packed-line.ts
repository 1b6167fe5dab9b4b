import type { CentreLine } from './centre-line.js';

/*
 * A centre line packed into one array of numbers, for work that looks at a hundred thousand of them.
 * Pieces alternate, straights first and last. A piece takes STRIDE numbers:
 *   0 kind (0 straight, 1 bend)   1 station of its beginning   2 length along the line
 *   straight: 3-5 where it begins, 6-8 its direction
 *   bend: 3-5 centre, 6-8 unit from the centre to its beginning, 9-11 unit flow there, 12 CLR, 13 sine and
 *   14 cosine of its angle
 * Lengths mm, places in the engine's frame.
 */
export const STRIDE = 16;

export interface PackedLine {
  readonly data: Float64Array;
  /** How many pieces: 2 x bends + 1. */
  pieces: number;
  /** Whole length, mm. */
  length: number;
}

/** Room for a line of so many bends. */
export const emptyLine = (bends: number): PackedLine => ({
  data: new Float64Array((2 * bends + 1) * STRIDE),
  pieces: 2 * bends + 1,
  length: 0,
});

/** A copy with no room to spare. */
export const copyOfLine = (line: PackedLine): PackedLine => ({
  data: line.data.slice(0, line.pieces * STRIDE),
  pieces: line.pieces,
  length: line.length,
});

/** Length of the straight before bend `index` (from 0), or of the last one; below 0 where bends overlap. */
export const straightOf = (line: PackedLine, index: number): number =>
  line.data[2 * index * STRIDE + 2] as number;

/** Angle of bend `index` (from 0), rad. */
export const angleOf = (line: PackedLine, index: number): number => {
  const o = (2 * index + 1) * STRIDE;
  return (line.data[o + 2] as number) / (line.data[o + 12] as number);
};

/**
 * Packs the line through intersection points: start, one point a bend, end (x, y, z in turn).
 * T = CLR tan(angle / 2) of every bend is taken off the straights beside it.
 * Bends of nearly half a turn are held at 179.2 degrees: their intersection point runs away.
 * @param into a line with room for as many bends
 */
export function packThrough(
  points: Float64Array,
  clrs: readonly number[],
  bends: number,
  into: PackedLine,
): void {
  const d = into.data;
  let station = 0;
  let tangentBefore = 0;
  for (let m = 0; m <= bends; m++) {
    const o = 3 * m;
    const [px, py, pz] = [points[o] as number, points[o + 1] as number, points[o + 2] as number];
    const [qx, qy, qz] = [points[o + 3] as number, points[o + 4] as number, points[o + 5] as number];
    let [x, y, z] = [qx - px, qy - py, qz - pz];
    const reach = Math.sqrt(x * x + y * y + z * z);
    x /= reach;
    y /= reach;
    z /= reach;
    let [tangent, angle, c] = [0, 0, 1];
    let [nx, ny, nz] = [0, 0, 0];
    const clr = m < bends ? (clrs[m] as number) : 0;
    if (m < bends) {
      nx = (points[o + 6] as number) - qx;
      ny = (points[o + 7] as number) - qy;
      nz = (points[o + 8] as number) - qz;
      const next = Math.sqrt(nx * nx + ny * ny + nz * nz);
      nx /= next;
      ny /= next;
      nz /= next;
      c = Math.max(-0.9999, Math.min(1, x * nx + y * ny + z * nz));
      angle = Math.acos(c);
      tangent = clr * Math.tan(angle / 2);
    }
    let e = 2 * m * STRIDE;
    const straight = reach - tangentBefore - tangent;
    d[e] = 0;
    d[e + 1] = station;
    d[e + 2] = straight;
    d[e + 3] = px + tangentBefore * x;
    d[e + 4] = py + tangentBefore * y;
    d[e + 5] = pz + tangentBefore * z;
    d[e + 6] = x;
    d[e + 7] = y;
    d[e + 8] = z;
    station += straight;
    if (m < bends) {
      e += STRIDE;
      const s = Math.sin(angle);
      const per = s > 0 ? 1 / s : 0;
      // Unit from the beginning of the bend to its centre.
      const [tx, ty, tz] = [(nx - x * c) * per, (ny - y * c) * per, (nz - z * c) * per];
      d[e] = 1;
      d[e + 1] = station;
      d[e + 2] = clr * angle;
      d[e + 3] = qx - tangent * x + clr * tx;
      d[e + 4] = qy - tangent * y + clr * ty;
      d[e + 5] = qz - tangent * z + clr * tz;
      d[e + 6] = -tx;
      d[e + 7] = -ty;
      d[e + 8] = -tz;
      d[e + 9] = x;
      d[e + 10] = y;
      d[e + 11] = z;
      d[e + 12] = clr;
      d[e + 13] = s;
      d[e + 14] = c;
      station += clr * angle;
    }
    tangentBefore = tangent;
  }
  into.pieces = 2 * bends + 1;
  into.length = station;
}

/** A bend over this (rad) is packed as two, so that the wedge of each stays below half a turn. */
const LARGEST_ARC = (5 * Math.PI) / 6;

/**
 * Packs a centre line marched from its rows. A large bend is packed as two, nothing between them.
 */
export function packCentreLine(line: CentreLine): PackedLine {
  const pieces: number[][] = [];
  for (const piece of line.pieces) {
    if (piece.kind === 'straight') {
      pieces.push(packedStraight(piece.station, piece.length, piece.from, piece.direction));
      continue;
    }
    const parts = Math.ceil(piece.angle / LARGEST_ARC);
    const angle = piece.angle / parts;
    for (let k = 0; k < parts; k++) {
      const [c, s] = [Math.cos(k * angle), Math.sin(k * angle)];
      const out = piece.turnToward.map((x, i) => -x * c + (piece.direction[i] as number) * s);
      const flow = piece.direction.map((x, i) => x * c + (piece.turnToward[i] as number) * s);
      const station = piece.station + k * angle * piece.clr;
      if (k > 0)
        pieces.push(
          packedStraight(
            station,
            0,
            piece.centre.map((x, i) => x + piece.clr * (out[i] as number)),
            flow,
          ),
        );
      const bend = [1, station, angle * piece.clr, ...piece.centre, ...out, ...flow];
      pieces.push([...bend, piece.clr, Math.sin(angle), Math.cos(angle), 0]);
    }
  }
  const packed = emptyLine((pieces.length - 1) / 2);
  pieces.forEach((piece, i) => packed.data.set(piece, i * STRIDE));
  packed.length = line.length;
  return packed;
}

const packedStraight = (
  station: number,
  length: number,
  from: readonly number[],
  direction: readonly number[],
): number[] => [0, station, length, ...from, ...direction];

/** The point of piece `piece` at a station of the line, written into `here`. */
export function pointOn(data: Float64Array, piece: number, station: number, here: Float64Array): void {
  const o = piece * STRIDE;
  const t = station - (data[o + 1] as number);
  if (data[o] === 0) {
    here[0] = (data[o + 3] as number) + t * (data[o + 6] as number);
    here[1] = (data[o + 4] as number) + t * (data[o + 7] as number);
    here[2] = (data[o + 5] as number) + t * (data[o + 8] as number);
    return;
  }
  const clr = data[o + 12] as number;
  const c = clr * Math.cos(t / clr);
  const s = clr * Math.sin(t / clr);
  here[0] = (data[o + 3] as number) + c * (data[o + 6] as number) + s * (data[o + 9] as number);
  here[1] = (data[o + 4] as number) + c * (data[o + 7] as number) + s * (data[o + 10] as number);
  here[2] = (data[o + 5] as number) + c * (data[o + 8] as number) + s * (data[o + 11] as number);
}
