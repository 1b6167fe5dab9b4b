import { cosSin } from '../base/numbers.js';
import { add, cross3, direction, dot3, length3, scale, subtract, type Vector } from '../base/vectors.js';
import { type Saddle, type SaddleBend, topAt } from './saddle.js';

/**
 * The block between its foot's underside and its top, with nothing cut out yet, mm^3: the top's height over
 * the width, integrated, on each side of the tube.
 */
export const blockVolume = ({ top }: Saddle, width: number, halfBreadth: number): number =>
  halfBreadth * gauss(-width / 2, width / 2, (x) => topAt(top.left, x) + topAt(top.right, x));

/**
 * What the seat takes out of that block, mm^3, worked out without the kernel.
 * On a straight: width x R^2 (embrace - sin embrace) / 2 / cos tilt, a circle's segment seen aslant.
 * On a bend: Gauss integration of the sections x = constant, each of them a Gauss integral round the place
 * where the centre line goes through it, out to the torus, less the triangles over the top.
 */
export function seatVolume(saddle: Saddle, width: number, embrace: number): number {
  const { radius, along, bend } = saddle;
  if (!bend) return (width * radius * radius * (embrace - Math.sin(embrace))) / 2 / along[0];
  return gauss(-width / 2, width / 2, (x) => sectionArea(saddle, bend, x));
}

/** The seat's part of the section at x, mm^2. */
function sectionArea(saddle: Saddle, bend: SaddleBend, x: number): number {
  const [, y, z] = pierceAt(saddle, bend, x);
  const from: Vector = [x, y, z];
  const [left, right] = [topAt(saddle.top.left, x), topAt(saddle.top.right, x)];
  const part = (side: 1 | -1, top: number): number => {
    const out = (swing: number): number => rayToTorus(saddle, bend, from, downTurned(side * swing));
    let [within, above] = [0, Math.PI];
    for (let i = 0; i < 60; i++) {
      const half = (within + above) / 2;
      if (z - out(half) * Math.cos(half) < top) within = half;
      else above = half;
    }
    const edge = out(within) * Math.sin(within);
    return (gauss(0, within, (swing) => out(swing) ** 2) - edge * (z - top)) / 2;
  };
  // The two sides of the top meet at y = 0, the two parts where the centre line goes through.
  return part(1, left) + part(-1, right) + (left - right) * y;
}

const downTurned = (swing: number): Vector => {
  const [c, s] = cosSin(swing);
  return [0, s, -c];
};

/** Where the centre line goes through the section at x: Newton along the arc, from the station. */
function pierceAt({ at, along }: Saddle, { centre, axis, clr }: SaddleBend, x: number): Vector {
  const arm = subtract(at, centre);
  let turn = x / (clr * along[0]);
  for (let i = 0; i < 20; i++) {
    const [c, s] = cosSin(turn);
    const here = add(centre, add(scale(arm, c), scale(along, clr * s)));
    const flow = direction(cross3(axis, subtract(here, centre)));
    turn -= (here[0] - x) / (clr * flow[0]);
  }
  const [c, s] = cosSin(turn);
  return add(centre, add(scale(arm, c), scale(along, clr * s)));
}

/** From a place inside the tube straight out to its skin: Newton from far outside in, so that no root is passed. */
function rayToTorus(
  { radius }: Saddle,
  { centre, axis, clr }: SaddleBend,
  from: Vector,
  way: Vector,
): number {
  const rise = dot3(way, axis);
  let out = radius;
  for (let i = 0; i < 40; i++) {
    const arm = subtract(add(from, scale(way, out)), centre);
    const off = dot3(arm, axis);
    const round = length3(subtract(arm, scale(axis, off)));
    const away = Math.hypot(round - clr, off);
    const slope = ((round - clr) * ((dot3(arm, way) - off * rise) / round) + off * rise) / away;
    const step = (away - radius) / slope;
    out -= step;
    if (Math.abs(step) < out * Number.EPSILON) break;
  }
  return out;
}

/** Gauss-Legendre on 16 places: smooth functions to the last digits. */
function gauss(from: number, to: number, f: (x: number) => number): number {
  const [middle, half] = [(from + to) / 2, (to - from) / 2];
  return (
    half * NODES.reduce((sum, [x, weight]) => sum + weight * (f(middle + half * x) + f(middle - half * x)), 0)
  );
}

/** @see Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4, n = 16 (from memory; tested on x^n) */
const NODES: readonly (readonly [number, number])[] = [
  [0.0950125098376374, 0.1894506104550685],
  [0.2816035507792589, 0.1826034150449236],
  [0.4580167776572274, 0.1691565193950025],
  [0.6178762444026438, 0.1495959888165767],
  [0.755404408355003, 0.1246289712555339],
  [0.8656312023878318, 0.0951585116824928],
  [0.9445750230732326, 0.0622535239386479],
  [0.9894009349916499, 0.0271524594117541],
];
