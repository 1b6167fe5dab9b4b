import type { Point } from '../../src/base/points.js';
import { radians } from '../../src/base/numbers.js';
import type { Random } from '../../src/base/random.js';
import { grownConvex } from '../../src/geom/convex.js';
import { ellipseLoop } from '../../src/geom/ellipse.js';
import { hullOfDiscs } from '../../src/geom/hulls.js';
import { circleLoop, movedLoop } from '../../src/geom/loops.js';
import type { Loop } from '../../src/geom/segments.js';
import { dShape, obround, roundedRectangle } from '../../src/geom/shapes.js';

/**
 * An invented flange as pads: ports along a row, stud bosses beside them, mostly a web bar.
 * With `round` all sizes are whole millimetres, so that edges touch, coincide and meet in one point.
 */
export function trialPads(random: Random, round: boolean): Loop[] {
  const number = (low: number, high: number): number =>
    round ? random.whole(low, high) : random.between(low, high);
  const pads: Loop[] = [];
  const ports = random.whole(1, 5);
  const pitch = number(55, 100);
  const edge = number(6, 12);
  const boss = number(9, 15);
  const beside = [
    [-number(24, 40), number(10, 30)],
    [number(24, 40), -number(10, 30)],
  ] as const;
  const opening = openingOf(random, number);
  for (let i = 0; i < ports; i++) {
    const at: Point = [i * pitch, round || random.chance(0.6) ? 0 : number(-4, 4)];
    const turn = random.chance(0.3) ? (round ? Math.PI / 2 : radians(random.between(-30, 30))) : 0;
    pads.push(movedLoop(grownConvex(opening, edge), turn, at));
    for (const [x, y] of beside) pads.push(circleLoop([at[0] + x, at[1] + y], boss));
    if (random.chance(0.3)) {
      const hang: Point = [at[0] + number(-30, 30), at[1] + number(25, 45)];
      pads.push(
        hullOfDiscs([
          { at: [at[0], at[1] + number(0, 10)], radius: boss },
          { at: hang, radius: number(7, 12) },
        ]),
      );
    }
  }
  if (random.chance(0.75)) {
    const height = number(20, 40);
    const length = (ports - 1) * pitch + number(60, 90);
    const bar = random.chance(0.5) ? obround(length, height) : roundedRectangle(length, height, number(2, 9));
    pads.push(
      movedLoop(bar, 0, [((ports - 1) * pitch) / 2, round ? random.whole(-10, 10) : number(-10, 10)]),
    );
  }
  return pads;
}

function openingOf(random: Random, number: (low: number, high: number) => number): Loop {
  const width = number(32, 44);
  switch (random.whole(0, 4)) {
    case 0:
      return circleLoop([0, 0], width / 2);
    case 1:
      return roundedRectangle(width, number(26, 38), number(4, 12));
    case 2:
      return obround(width + number(0, 10), width);
    case 3:
      return ellipseLoop(width + number(1, 12), width).loop;
    default:
      return dShape(width, number(26, 38), random.pick(['top', 'bottom', 'left', 'right']), number(2, 9));
  }
}
