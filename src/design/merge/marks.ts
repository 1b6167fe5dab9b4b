import { radians } from '../../base/numbers.js';
import { distance, minus, plus, size, times, type Point } from '../../base/points.js';
import { boundsOf } from '../../geom/loops.js';
import type { Stroke } from '../../geom/segments.js';
import { letterRound, letterWidth } from '../lettering.js';
import type { Mark } from '../parts.js';
import { isFree, markField, type MarkField } from '../room-for-mark.js';
import { edgesOf } from './check-metal.js';
import type { MergePlan } from './plan.js';
import { reachOutside } from './tubes.js';

/** The side of the plate that the drawing shows and that lies up on the table: the collector's outlet is that way. */
export const SIDE = 'OUTLET SIDE';

/** Kept between a mark and any edge, and between two marks so that they are not read together, mm. */
const CLEAR = 1.5;
const APART = 4;
/** Marks are looked at this closely, mm. */
const LOOK = 0.8;
const HEIGHTS = [6, 5, 4, 3] as const;

/** What was etched, and what there was no room for. */
export interface Marks {
  readonly marks: readonly Mark[];
  readonly noRoom: readonly string[];
}

/** A circle on which lettering can stand, and where on it is best. */
interface Rim {
  readonly centre: Point;
  readonly radius: number;
  readonly best: number;
}

/**
 * The marks of a merge plate, on the side seen: a tick where the clocking is zero, the number of every slot,
 * which side this is, and the job's name. Lettering stands on the metal round the holes, bent to it.
 */
export function mergeMarks(plan: MergePlan, jobName: string): Marks {
  const edges = edgesOf(plan).filter(({ kind }) => kind !== 'outline');
  const field = markField(
    plan.outline,
    edges.map(({ loop }) => loop),
  );
  const marks: Mark[] = [];
  const noRoom: string[] = [];
  const inked: Inked[] = [];
  const put = (name: string, strokes: readonly Stroke[] | undefined): void => {
    if (strokes === undefined) {
      noRoom.push(name);
      return;
    }
    marks.push({ name, strokes });
    inked.push(inkedBy(strokes));
  };
  const fits = (strokes: readonly Stroke[]): boolean => isClear(field, inked, strokes);
  const rims = rimsOf(plan);
  const lobes = rims.slice(0, plan.tubes.length);

  put('clock zero', zeroTick(plan, fits));
  plan.tubes.forEach(({ slot }, i) => {
    const rim = lobes[i];
    // A smaller number in the middle of its lobe is found sooner than a large one round the corner.
    const near = rim && onRim([rim], [slot], fits, HEIGHTS.slice(0, 3), radians(24));
    put(`slot ${slot}`, near ?? (rim && onRim([rim], [slot], fits)));
  });
  // The outer rim of a round plate has most room, and no hole that it could be read to belong to.
  const outer = rims.slice(plan.tubes.length);
  put(SIDE, onRim([...outer, ...lobes], [SIDE], fits) ?? onRim(lobes, halves(SIDE), fits));
  const name = jobName.toUpperCase();
  // From the last tube, so that name and side do not crowd one of them.
  const back = lobes.toReversed();
  put('job name', onRim([...outer, ...back], [name], fits) ?? onRim(back, halves(name), fits));
  return { marks, noRoom };
}

/** The circles that lettering may stand on: one round every tube's hole, and a round plate's own rim. */
function rimsOf({ plate, tubes, tube }: MergePlan): readonly Rim[] {
  const half = (tube.od + plate.gap) / 2;
  const lobes = tubes.map(({ at, clock, length }): Rim => {
    // A leaning hole is longer than wide; lettering stands off its outer end.
    const centre = plus(at, times(at, (length / 2 - half) / size(at)));
    return { centre, radius: half + plate.edge / 2, best: clock };
  });
  if (plate.outline === 'hugging') return lobes;
  const outer = reachOutside(tubes) + plate.edge / 2;
  return [...lobes, { centre: [0, 0], radius: outer, best: radians(90) }];
}

/**
 * Lettering on the first rim, and at the largest height, where it is clear: whole as near as can be to the
 * rim's best place, or in two parts that read on from each other across it.
 */
function onRim(
  rims: readonly Rim[],
  parts: readonly string[],
  fits: (strokes: readonly Stroke[]) => boolean,
  heights: readonly number[] = HEIGHTS,
  widest = radians(100),
): readonly Stroke[] | undefined {
  const [first, second] = parts;
  if (first === undefined) return undefined;
  for (const height of heights)
    for (const { centre, radius, best } of rims) {
      const at = (text: string, turn: number) => letterRound(text, height, centre, radius, turn);
      const half = (text: string): number => letterWidth(text, height) / 2 / radius;
      if (second === undefined) {
        for (let step = 0; step * STEP <= widest; step++)
          for (const way of step === 0 ? [1] : [1, -1]) {
            const strokes = at(first, best + way * step * STEP);
            if (fits(strokes)) return strokes;
          }
        continue;
      }
      // Lettering reads clockwise, so the first part stands on the counter-clockwise side.
      for (let step = 1; step * STEP < radians(60); step++) {
        const aside = step * STEP;
        const strokes = [
          ...at(first, best + aside + half(first)),
          ...at(second, best - aside - half(second)),
        ];
        if (fits(strokes)) return strokes;
      }
    }
  return undefined;
}

const STEP = radians(4);

/** A name in two parts of like length, parted at a space or dash if it has one; otherwise in one. */
function halves(name: string): readonly string[] {
  const cuts = [...name.matchAll(/[ -]/g)].map(({ index }) => index);
  const middle = name.length / 2;
  const cut = cuts.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
  return cut === undefined ? [name] : [name.slice(0, cut + 1).trim(), name.slice(cut + 1)];
}

/** A short stroke on the clocking zero, as far out as the plate has metal for it. */
function zeroTick(
  plan: MergePlan,
  fits: (strokes: readonly Stroke[]) => boolean,
): readonly Stroke[] | undefined {
  const reach = boundsOf(plan.outline).right;
  for (const long of [6, 5, 4, 3])
    for (let x = reach; x > long; x -= 0.5) {
      const tick: Stroke = [
        [x - long, 0],
        [x, 0],
      ];
      if (fits([tick])) return [tick];
    }
  return undefined;
}

/** Points along strokes, close enough together that nothing fits between. */
const looks = (strokes: readonly Stroke[]): readonly Point[] =>
  strokes.flatMap((stroke) =>
    stroke.slice(1).flatMap((to, i) => {
      const from = stroke[i] ?? to;
      const count = Math.max(1, Math.ceil(distance(from, to) / LOOK));
      return Array.from({ length: count + 1 }, (_, k) => plus(from, times(minus(to, from), k / count)));
    }),
  );

/** A mark already placed: points along it, and a circle that holds them all. */
interface Inked {
  readonly points: readonly Point[];
  readonly middle: Point;
  readonly radius: number;
}

function inkedBy(strokes: readonly Stroke[]): Inked {
  const points = looks(strokes);
  const middle = times(
    points.reduce((sum, p) => plus(sum, p), [0, 0] as Point),
    1 / Math.max(1, points.length),
  );
  return { points, middle, radius: Math.max(0, ...points.map((p) => distance(p, middle))) };
}

function isClear(field: MarkField, inked: readonly Inked[], strokes: readonly Stroke[]): boolean {
  const apart = (point: Point): boolean =>
    inked.every(
      ({ points, middle, radius }) =>
        distance(point, middle) >= radius + APART || points.every((other) => distance(point, other) >= APART),
    );
  const free = (point: Point): boolean =>
    isFree(field, { centre: point, width: 0, height: 0 }, CLEAR) && apart(point);
  // The strokes' own points rule most places out before the close look.
  return strokes.every((stroke) => stroke.every(free)) && looks(strokes).every(free);
}
