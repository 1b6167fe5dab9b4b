import { cosSin, radians } from '../../base/numbers.js';
import { randomFrom } from '../../base/random.js';
import { tolerance } from '../../base/tolerance.js';
import { add, cross3, dot3, length3, scale, squareTo, turnedAbout, type Vector } from '../../base/vectors.js';
import type { BendRow } from '../../geom/centre-line.js';
import { normal } from './more-bends.js';

/** Bends and clocks are rounded to this (rad): half a degree is what a protractor shows. Common practice, no source. */
export const ANGLE_STEP = radians(0.5);

/** How far about a bend's direction roundings of it are looked for, in steps; where they are drawn, how wide at most. */
const REACH = 24;
const WIDEST = 6;
/** Draws where more than one bend is rounded freely. */
const DRAWS = 4000;
/** A flatter bend's clock is not moved further than one of this sine. */
const FLAT = 0.1;

/** Where the flow goes along a tube so far, and where its last bend turned toward, carried along. Unit. */
export interface Course {
  /** Of every straight, the first included. */
  readonly flows: readonly Vector[];
  readonly toward: Vector;
}

/** The course one bend further on. */
export function onward({ flows, toward }: Course, { angle, clock }: Omit<BendRow, 'clr'>): Course {
  const flow = flows.at(-1) as Vector;
  const turn = turnedAbout(toward, flow, clock);
  const [c, s] = cosSin(angle);
  return {
    flows: [...flows, add(scale(flow, c), scale(turn, s))],
    toward: add(scale(turn, c), scale(flow, -s)),
  };
}

/** A bend of whole steps, its clock within one turn. */
function bendOf(clr: number, angle: number, clock: number): BendRow {
  const turn = Math.round((2 * Math.PI) / ANGLE_STEP);
  return { clr, angle: angle * ANGLE_STEP, clock: (((clock % turn) + turn) % turn) * ANGLE_STEP };
}

/**
 * Bends of whole steps about those given, no set twice: all within reach where it is one bend, else seeded
 * draws that go ever wider. For no bend, just that.
 */
export function* bendsAbout(bends: readonly BendRow[], seed: number): Generator<readonly BendRow[]> {
  const [only, ...more] = bends;
  if (only === undefined) yield [];
  else if (more.length === 0) {
    const [angle, clock] = [only.angle, only.clock].map((exact) => Math.round(exact / ANGLE_STEP)) as [
      number,
      number,
    ];
    const aside = Math.round(REACH / Math.max(FLAT, Math.sin(only.angle)));
    for (let a = -REACH; a <= REACH; a++)
      for (let c = -aside; c <= aside; c++) yield [bendOf(only.clr, angle + a, clock + c)];
  } else {
    const random = randomFrom(seed);
    const seen = new Set<string>();
    for (let t = 0; t < DRAWS; t++) {
      const wide = 1 + (t / DRAWS) * WIDEST;
      const drawn = bends.map(({ clr, angle, clock }) => {
        const [a, c] = [wide * normal(random), wide * normal(random)];
        return bendOf(
          clr,
          Math.round(angle / ANGLE_STEP + a),
          Math.round(clock / ANGLE_STEP + c / Math.max(FLAT, Math.sin(angle))),
        );
      });
      const key = drawn.map(({ angle, clock }) => `${angle} ${clock}`).join();
      if (seen.has(key)) continue;
      seen.add(key);
      yield drawn;
    }
  }
}

/** Last bends of whole steps that turn a course to within `most` (rad) of a unit direction; none where it runs there straight. */
export function* bendsInto(course: Course, clr: number, end: Vector, most: number): Generator<BendRow> {
  const flow = course.flows.at(-1) as Vector;
  const across = squareTo(end, flow);
  const sine = length3(across);
  if (!(sine > tolerance.sameDirection)) return;
  const turn = scale(across, 1 / sine);
  const angle = Math.atan2(sine, dot3(flow, end)) / ANGLE_STEP;
  const clock = Math.atan2(dot3(cross3(course.toward, turn), flow), dot3(course.toward, turn)) / ANGLE_STEP;
  const up = most / ANGLE_STEP;
  const aside = up / Math.max(FLAT, sine);
  for (let a = Math.ceil(angle - up); a <= angle + up; a++)
    for (let c = Math.ceil(clock - aside); c <= clock + aside; c++)
      if (a > 0 && Math.hypot(a - angle, (c - clock) * sine) <= up) yield bendOf(clr, a, c);
}
