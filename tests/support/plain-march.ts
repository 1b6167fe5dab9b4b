/*
 * A second way from rows to a centre line, for tests: vectors written out, every point by the circle's own
 * formula, distances by dense sampling. It shares nothing with src/geom.
 */
export type V = readonly [number, number, number];
export type Row = { straight: number } | { clr: number; angle: number; clock: number };

const rad = Math.PI / 180;
export const plus = (a: V, b: V, k = 1): V => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
export const dot = (a: V, b: V): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: V, b: V): V => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: V): number => Math.hypot(...a);
export const unit = (a: V): V => [a[0] / size(a), a[1] / size(a), a[2] / size(a)];
export const far = (a: V, b: V): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
const mix = (a: V, ka: number, b: V, kb: number): V => plus([ka * a[0], ka * a[1], ka * a[2]], b, kb);
/** `a` made square to the unit vector `axis`, length 1. */
export const squared = (a: V, axis: V): V => unit(plus(a, axis, -dot(a, axis)));

/** A point of a centre line: how far along, on which row, which way the flow goes. */
export interface Station {
  readonly p: V;
  readonly flow: V;
  readonly s: number;
  readonly row: number;
}

export interface Marched {
  readonly stations: readonly Station[];
  readonly end: { readonly at: V; readonly flow: V };
  readonly length: number;
  /** Where each row begins and ends along the line. */
  readonly spans: readonly (readonly [from: number, to: number])[];
}

/** Marches rows (mm, degrees) from a start; a point every `step` mm or closer, both ends of each row in. */
export function march(start: V, direction: V, reference: V, rows: readonly Row[], step: number): Marched {
  let at = start;
  let flow = unit(direction);
  let toward = squared(reference, flow);
  let s = 0;
  const stations: Station[] = [];
  const spans: [number, number][] = [];
  rows.forEach((row, i) => {
    const bend = 'clr' in row;
    const length = bend ? row.clr * row.angle * rad : row.straight;
    const [p, d, n] = [
      at,
      flow,
      bend ? mix(toward, Math.cos(row.clock * rad), cross(flow, toward), Math.sin(row.clock * rad)) : toward,
    ];
    const pose = (t: number): { p: V; flow: V; n: V } => {
      if (!bend) return { p: plus(p, d, t), flow: d, n };
      const [c, q] = [Math.cos(t / row.clr), Math.sin(t / row.clr)];
      return {
        p: plus(plus(p, d, row.clr * q), n, row.clr * (1 - c)),
        flow: mix(d, c, n, q),
        n: mix(n, c, d, -q),
      };
    };
    const count = Math.max(1, Math.ceil(length / step));
    for (let k = 0; k <= count; k++) {
      const here = pose((length * k) / count);
      stations.push({ p: here.p, flow: here.flow, s: s + (length * k) / count, row: i });
    }
    const last = pose(length);
    [at, flow, toward] = [last.p, last.flow, last.n];
    spans.push([s, s + length]);
    s += length;
  });
  return { stations, end: { at, flow }, length: s, spans };
}

/** A body as a job writes it. */
export interface Body {
  box?: { from: V; to: V };
  cylinder?: { from: V; to: V; diameter: number };
  capsule?: { from: V; to: V; diameter: number };
  plane?: { at: V; normal: V };
}

/** Distance of a point to a body, negative inside it. */
export function toBody({ box, cylinder, capsule, plane }: Body, p: V): number {
  if (box) {
    const out = p.map((x, i) => Math.max((box.from[i] ?? 0) - x, x - (box.to[i] ?? 0)));
    const clear = Math.hypot(...out.map((x) => Math.max(0, x)));
    return clear > 0 ? clear : Math.max(...out);
  }
  if (plane) return dot(plus(p, plane.at, -1), unit(plane.normal));
  const round = cylinder ?? capsule;
  if (!round) throw new Error('a body of another kind');
  const axis = plus(round.to, round.from, -1);
  const away = plus(p, round.from, -1);
  const along = dot(away, unit(axis));
  if (capsule) {
    const nearest = plus(round.from, unit(axis), Math.min(size(axis), Math.max(0, along)));
    return far(p, nearest) - round.diameter / 2;
  }
  const aside = Math.sqrt(Math.max(0, dot(away, away) - along * along)) - round.diameter / 2;
  const beyond = Math.max(-along, along - size(axis));
  if (aside <= 0 && beyond <= 0) return Math.max(aside, beyond);
  return Math.hypot(Math.max(0, aside), Math.max(0, beyond));
}

/** Least of `f` over stations. */
export const least = (stations: readonly Station[], f: (here: Station) => number): number =>
  stations.reduce((found, here) => Math.min(found, f(here)), Infinity);
