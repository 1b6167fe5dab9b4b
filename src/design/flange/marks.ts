import { directionSeenFrom } from '../../base/frames.js';
import { plus, size, times, unit, type Point } from '../../base/points.js';
import { chordsOf } from '../../geom/chords.js';
import { portClockingZero } from '../../geom/clocking-zero.js';
import type { Loop } from '../../geom/segments.js';
import { letterCentred, letterWidth } from '../lettering.js';
import type { Mark } from '../parts.js';
import { isFree, markField, nearestRoom, taken, type Box, type MarkField } from '../room-for-mark.js';
import type { PortOpening } from './opening.js';
import type { PlatePlan } from './plan.js';

/** Kept between a mark and any edge, and between a mark and the weld round a tube's end, mm. */
const CLEAR = 1.5;
const WELD = 4;

/** What was etched, and what there was no room for. */
export interface Marks {
  readonly marks: readonly Mark[];
  readonly noRoom: readonly string[];
}

/**
 * The marks of one plate, on the side seen: a number by every port, a tick where every port's clocking is
 * zero, TUBE SIDE, the job's name, and for a blend the outlines to grind to.
 */
export function flangeMarks(
  plan: PlatePlan,
  jobName: string,
  openings: readonly PortOpening[],
  outline: Loop,
  edges: readonly Loop[],
): Marks {
  const welds = openings.flatMap(({ tubeEnd }) => (tubeEnd === undefined ? [] : [tubeEnd]));
  let field = markField(outline, [...edges, ...welds]);
  const marks: Mark[] = [];
  const noRoom: string[] = [];
  for (const { of, grind } of openings)
    if (grind.length > 0) marks.push({ name: `grind ${of.port.id}`, strokes: grind });
  for (const opening of openings) {
    const tick = zeroTick(plan, opening, field);
    if (tick === undefined) noRoom.push(`the clocking tick of ${opening.of.port.id}`);
    else {
      marks.push({ name: `clock zero ${opening.of.port.id}`, strokes: [tick] });
      field = taken(field, boxOf(...tick));
    }
  }
  const write = (
    name: string,
    lines: readonly string[],
    wanted: Point,
    heights: readonly number[],
    reach: number,
  ): void => {
    for (const height of heights) {
      const width = Math.max(...lines.map((line) => letterWidth(line, height)));
      const box = { centre: wanted, width, height: height * (1.5 * lines.length - 0.5) };
      const centre = nearestRoom(field, box, CLEAR, reach);
      if (centre === undefined) continue;
      const strokes = lines.flatMap((line, i) => {
        const up = 1.5 * height * ((lines.length - 1) / 2 - i);
        return letterCentred(line, height, [centre[0], centre[1] + up]);
      });
      marks.push({ name, strokes });
      field = taken(field, { ...box, centre });
      return;
    }
    noRoom.push(name);
  };
  for (const { of, tubeEnd, opening } of openings) {
    const low = Math.min(...chordsOf(tubeEnd ?? opening.loop, 0.1).map((p) => p[1]));
    write(`number ${of.port.id}`, [of.port.id], [of.at[0], low - WELD - 4], [6, 5, 4], 60);
  }
  // Between the first two ports is most metal; a lone port has its studs' pads beside it.
  const first: Point = plan.ports[0]?.at ?? [0, 0];
  const second = plan.ports[1]?.at;
  const middle = second === undefined ? first : times(plus(first, second), 0.5);
  write('TUBE SIDE', ['TUBE', 'SIDE'], middle, [6, 5, 4, 3], 80);
  const nextTo = plan.ports[2]?.at;
  const there = second === undefined || nextTo === undefined ? middle : times(plus(second, nextTo), 0.5);
  write('job name', jobName.toUpperCase().split(/[-_ ]+/), there, [5, 4, 3], 80);
  return { marks, noRoom };
}

/** A short stroke outward of the weld, toward the port's clocking zero. */
function zeroTick(
  plan: PlatePlan,
  { of, tubeEnd, opening }: PortOpening,
  field: MarkField,
): readonly [Point, Point] | undefined {
  const [x, y] = directionSeenFrom(plan.frame, portClockingZero(of.port.direction));
  // Where the zero stands up out of the plate, no tick on the plate can show it.
  if (size([x, y]) < 0.2) return undefined;
  const way = unit([x, y]);
  // A hole through which the tube leans reaches out from under its end.
  const rim = [...chordsOf(opening.loop, 0.02), ...(tubeEnd === undefined ? [] : chordsOf(tubeEnd, 0.02))];
  const reach = Math.max(...rim.map((p) => (p[0] - of.at[0]) * way[0] + (p[1] - of.at[1]) * way[1]));
  for (const long of [5, 4, 3, 2]) {
    const from = plus(of.at, times(way, reach + 2));
    const to = plus(from, times(way, long));
    if (isFree(field, boxOf(from, to), 1)) return [from, to];
  }
  return undefined;
}

/** The box that just holds a stroke. */
const boxOf = (from: Point, to: Point): Box => ({
  centre: times(plus(from, to), 0.5),
  width: Math.abs(to[0] - from[0]),
  height: Math.abs(to[1] - from[1]),
});
