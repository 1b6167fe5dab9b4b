import { cross, dot, plus, squared, unit, type V } from './plain-march.js';

/*
 * Skins of triangles made and measured by plain code of the tests: nine numbers a triangle, seen
 * counter-clockwise from outside.
 */
export type Corners = readonly [V, V, V];

/** A skin as one row of numbers. */
export const flat = (skin: readonly Corners[]): Float64Array => Float64Array.from(skin.flat(2));

const quad = (a: V, b: V, c: V, d: V): Corners[] => [
  [a, b, c],
  [a, c, d],
];

/** A box's skin, cut up so that no edge is longer than `step` along the axes. */
export function boxSkin(from: V, to: V, step = Infinity): Corners[] {
  const skin: Corners[] = [];
  // Corners by whole-number places, so that faces that share an edge share its corners to the last digit.
  const counts = ([0, 1, 2] as const).map((axis) => Math.max(1, Math.ceil((to[axis] - from[axis]) / step)));
  const along = (axis: 0 | 1 | 2, i: number): number =>
    i === counts[axis] ? to[axis] : from[axis] + ((to[axis] - from[axis]) * i) / (counts[axis] as number);
  for (const axis of [0, 1, 2] as const) {
    const [u, v] = [((axis + 1) % 3) as 0 | 1 | 2, ((axis + 2) % 3) as 0 | 1 | 2];
    for (const side of [0, counts[axis] as number])
      for (let i = 0; i < (counts[u] as number); i++)
        for (let j = 0; j < (counts[v] as number); j++) {
          const at = (di: number, dj: number): V => {
            const place: [number, number, number] = [0, 0, 0];
            place[axis] = along(axis, side);
            place[u] = along(u, i + di);
            place[v] = along(v, j + dj);
            return place;
          };
          const [a, b, c, d] = [at(0, 0), at(1, 0), at(1, 1), at(0, 1)];
          skin.push(...(side === 0 ? quad(a, d, c, b) : quad(a, b, c, d)));
        }
  }
  return skin;
}

/** A profile (height, radius), from a pole to a pole, turned about an axis in `round` steps. */
function turned(at: V, along: V, profile: readonly (readonly [number, number])[], round: number): Corners[] {
  const axis = unit(along);
  const u = squared(Math.abs(axis[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0], axis);
  const v = cross(axis, u);
  const rings = profile.map(([height, radius]) =>
    Array.from({ length: round }, (_, k): V => {
      const angle = (2 * Math.PI * k) / round;
      const centre = plus(at, axis, height);
      return radius === 0
        ? centre
        : plus(plus(centre, u, radius * Math.cos(angle)), v, radius * Math.sin(angle));
    }),
  );
  const skin: Corners[] = [];
  for (let i = 0; i + 1 < rings.length; i++)
    for (let k = 0; k < round; k++) {
      const [low, high] = [rings[i] as V[], rings[i + 1] as V[]];
      const [a, b] = [low[k] as V, low[(k + 1) % round] as V];
      const [d, c] = [high[k] as V, high[(k + 1) % round] as V];
      if (profile[i]?.[1] !== 0) skin.push([a, b, c]);
      if (profile[i + 1]?.[1] !== 0) skin.push([a, c, d]);
    }
  return skin;
}

/** Heights from `low` to `high`, no further apart than `step`. */
const heights = (low: number, high: number, step: number): number[] => {
  const count = Math.max(1, Math.ceil((high - low) / step));
  return Array.from({ length: count + 1 }, (_, i) => low + ((high - low) * i) / count);
};

/**
 * A capsule's skin, its edges about `step` long. Its corners lie on the capsule, or, where `around`, so far
 * outside that no triangle cuts into it.
 */
export function capsuleSkin(from: V, to: V, diameter: number, step: number, around = false): Corners[] {
  const axis = plus(to, from, -1);
  const long = Math.sqrt(dot(axis, axis));
  const quarter = Math.max(2, Math.ceil((Math.PI * diameter) / 4 / step));
  const round = 4 * quarter;
  const grown = around ? 1 / (Math.cos(Math.PI / round) * Math.cos(Math.PI / 4 / quarter)) : 1;
  const r = (diameter / 2) * grown;
  const cap = Array.from({ length: quarter }, (_, i) => (Math.PI / 2 / quarter) * (quarter - i));
  const profile = [
    ...cap.map((a): [number, number] => [-r * Math.sin(a), a === cap[0] ? 0 : r * Math.cos(a)]),
    ...heights(0, long, step).map((h): [number, number] => [h, r]),
    ...[...cap]
      .reverse()
      .map((a): [number, number] => [long + r * Math.sin(a), a === cap[0] ? 0 : r * Math.cos(a)]),
  ];
  return turned(from, axis, profile, round);
}

/** A flat-ended cylinder's skin, corners on the cylinder. */
export function cylinderSkin(from: V, to: V, diameter: number, step: number): Corners[] {
  const axis = plus(to, from, -1);
  const long = Math.sqrt(dot(axis, axis));
  const r = diameter / 2;
  const round = Math.max(8, Math.ceil((Math.PI * diameter) / step));
  const disc = heights(0, r, step);
  const profile = [
    ...disc.map((x): [number, number] => [0, x]),
    ...heights(0, long, step)
      .slice(1)
      .map((h): [number, number] => [h, r]),
    ...[...disc]
      .reverse()
      .slice(1)
      .map((x): [number, number] => [long, x]),
  ];
  return turned(from, axis, profile, round);
}

/** Distance from a point to a triangle: to its inside square on, where it lies over it, else to its edges. */
function toTriangle(p: V, [a, b, c]: Corners): number {
  const toEdge = (s: V, t: V): number => {
    const along = plus(t, s, -1);
    const squared = dot(along, along);
    const share = squared > 0 ? Math.min(1, Math.max(0, dot(plus(p, s, -1), along) / squared)) : 0;
    const miss = plus(plus(p, s, -1), along, -share);
    return Math.sqrt(dot(miss, miss));
  };
  const edges = Math.min(toEdge(a, b), toEdge(b, c), toEdge(c, a));
  const square = cross(plus(b, a, -1), plus(c, a, -1));
  if (dot(square, square) === 0) return edges;
  const normal = unit(square);
  const over = (s: V, t: V): boolean => dot(cross(plus(t, s, -1), plus(p, s, -1)), normal) >= 0;
  return over(a, b) && over(b, c) && over(c, a)
    ? Math.min(edges, Math.abs(dot(plus(p, a, -1), normal)))
    : edges;
}

/** Distance from a point to the nearest of all triangles, one by one. */
export const toSkin = (p: V, skin: readonly Corners[]): number =>
  skin.reduce((least, corners) => Math.min(least, toTriangle(p, corners)), Infinity);

/** A skin as a binary STL file, straight from the format's description. */
export function binaryStl(skin: readonly Corners[]): Uint8Array {
  const bytes = Buffer.alloc(84 + 50 * skin.length);
  bytes.write('a skin made by a test', 0, 'latin1');
  bytes.writeUInt32LE(skin.length, 80);
  skin.forEach((corners, i) => {
    corners.flat().forEach((value, k) => bytes.writeFloatLE(value, 84 + 50 * i + 12 + 4 * k));
  });
  return bytes;
}

/** A skin as a text STL file. */
export const textStl = (skin: readonly Corners[]): string =>
  [
    'solid test',
    ...skin.map(
      (corners) =>
        `facet normal 0 0 0\n outer loop\n${corners.map((p) => `  vertex ${p.join(' ')}`).join('\n')}\n endloop\nendfacet`,
    ),
    'endsolid test\n',
  ].join('\n');
