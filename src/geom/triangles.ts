import type { Vector } from '../base/vectors.js';

/** Triangles one after the other: nine coordinates each, mm; seen counter-clockwise from outside where closed. */
export type Triangles = Float64Array;

/** The upright box that just holds some triangles, mm. */
export function boxOfTriangles(triangles: Triangles): { readonly from: Vector; readonly to: Vector } {
  const from: [number, number, number] = [Infinity, Infinity, Infinity];
  const to: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < triangles.length; i += 3)
    for (const axis of [0, 1, 2] as const) {
      const value = triangles[i + axis] as number;
      if (value < from[axis]) from[axis] = value;
      if (value > to[axis]) to[axis] = value;
    }
  return { from, to };
}

/** An open-addressed table of whole numbers, for far more entries than a Map is quick with. */
const slotsFor = (entries: number): number => 2 ** Math.ceil(Math.log2(2 * entries + 2));
const mix = (a: number, b: number, c: number): number => {
  let h = Math.imul(a, 0x9e3779b1) ^ Math.imul(b, 0x85ebca6b) ^ Math.imul(c, 0xc2b2ae35);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  return (h ^ (h >>> 13)) >>> 0;
};

/** For every corner of every triangle the number of its place: corners in the very same place share one. */
function placesOf(triangles: Triangles): Uint32Array {
  const count = triangles.length / 3;
  // Adding 0 makes minus zero plain.
  const plain = triangles.map((value) => value + 0);
  const words = new Int32Array(plain.buffer, plain.byteOffset, 2 * plain.length);
  const size = slotsFor(count);
  const table = new Int32Array(size).fill(-1);
  const places = new Uint32Array(count);
  for (let corner = 0; corner < count; corner++) {
    const [x, y, z] = [3 * corner, 3 * corner + 1, 3 * corner + 2];
    const hash = (i: number): number => (words[2 * i] as number) ^ ((words[2 * i + 1] as number) * 31);
    let slot = mix(hash(x), hash(y), hash(z)) & (size - 1);
    for (; ; slot = (slot + 1) & (size - 1)) {
      const known = table[slot] as number;
      if (known < 0) table[slot] = corner;
      else if (plain[3 * known] !== plain[x] || plain[3 * known + 1] !== plain[y]) continue;
      else if (plain[3 * known + 2] !== plain[z]) continue;
      places[corner] = known < 0 ? corner : known;
      break;
    }
  }
  return places;
}

/**
 * How many edges of a skin of triangles do not have as many triangles running along them one way as the other:
 * 0 for one or more closed skins, each facing out all over (or in all over). Corners must be in the very same
 * place to count as one; triangles without area do not count.
 */
export function openEdgesOf(triangles: Triangles): number {
  const places = placesOf(triangles);
  const size = slotsFor(places.length);
  const low = new Uint32Array(size);
  const high = new Uint32Array(size);
  const uses = new Int32Array(size);
  const taken = new Uint8Array(size);
  for (let i = 0; i < places.length; i++) {
    const first = i - (i % 3);
    const [p, q, r] = [places[first], places[first + 1], places[first + 2]] as [number, number, number];
    if (p === q || q === r || r === p) continue;
    const a = places[i] as number;
    const b = places[i % 3 === 2 ? first : i + 1] as number;
    const [least, most] = a < b ? [a, b] : [b, a];
    let slot = mix(least, most, 0) & (size - 1);
    while (taken[slot] && (low[slot] !== least || high[slot] !== most)) slot = (slot + 1) & (size - 1);
    taken[slot] = 1;
    low[slot] = least;
    high[slot] = most;
    uses[slot] = (uses[slot] as number) + (a < b ? 1 : -1);
  }
  let open = 0;
  for (const use of uses) if (use !== 0) open++;
  return open;
}
