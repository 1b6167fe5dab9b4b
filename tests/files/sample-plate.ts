import type { Point } from '../../src/base/points.js';
import type { PlatePart } from '../../src/design/parts.js';
import { arc, line } from '../../src/geom/arcs.js';
import { circleLoop, movedLoop } from '../../src/geom/loops.js';
import { obround } from '../../src/geom/shapes.js';
import type { Loop, Segment } from '../../src/geom/segments.js';

/** A rectangle with round corners about a centre, counter-clockwise; radius 0 gives four lines. */
export function roundedBox(width: number, height: number, radius: number, at: Point = [0, 0]): Loop {
  const [x, y] = [width / 2 - radius, height / 2 - radius];
  const centres: readonly Point[] = [
    [at[0] + x, at[1] + y],
    [at[0] - x, at[1] + y],
    [at[0] - x, at[1] - y],
    [at[0] + x, at[1] - y],
  ];
  const corners = centres.map((centre, i) => arc(centre, radius, (i * Math.PI) / 2, Math.PI / 2));
  return corners.flatMap((corner, i): Segment[] => {
    const next = corners[(i + 1) % 4] ?? corner;
    const side = line(corner.to, next.from);
    const flat = Math.hypot(side.to[0] - side.from[0], side.to[1] - side.from[1]) === 0;
    return [...(radius > 0 ? [corner] : []), ...(flat ? [] : [side])];
  });
}

/**
 * An invented plate, 240 x 90 x 10: one obround opening with odd sizes, one round bore, two cut holes,
 * two drilled ones, a slot to drill and file, a pocket round the bore and two strokes of a mark. Its outline has a concave corner.
 */
export const samplePlate: PlatePart = {
  kind: 'plate',
  name: 'flange',
  family: 'flange',
  title: 'Port flange',
  material: 'mild steel',
  thickness: 10,
  outline: waisted(),
  openings: [
    { name: 'port P1', loop: roundedBox(38.123456, 33.3, 12.7, [-70, 3]), exact: undefined },
    { name: 'tube P2', loop: circleLoop([60, 0], 21.2), exact: undefined },
    {
      name: 'slot for stud 5',
      loop: movedLoop(obround(11, 9), 0, [10, -30]),
      exact: undefined,
      drill: {
        diameter: 9,
        ends: [
          [9, -30],
          [11, -30],
        ],
      },
    },
  ],
  holes: [
    { name: 'stud 1', at: [-20, 25], diameter: 17, made: 'cut' },
    { name: 'stud 2', at: [-20, -25], diameter: 17, made: 'cut' },
    { name: 'stud 3', at: [-108, 31], diameter: 9, made: 'drilled' },
    { name: 'stud 4', at: [108, -31], diameter: 9, made: 'drilled' },
  ],
  pockets: [{ name: 'socket P2', loop: circleLoop([60, 0], 23), depth: 4 }],
  marks: [
    {
      name: 'P1',
      strokes: [
        [
          [-40, -5],
          [-40, 5],
          [-38, 5],
        ],
        [
          [-34, -5],
          [-34, 5],
        ],
      ],
    },
  ],
  view: 'seen from the tube side',
  remarks: ['TUBE SIDE lies up on the table.'],
  leastWeb: { asked: 7, found: 7.5, where: 'stud 3 and the edge' },
};

/** 240 x 90 with corners of 14, and a notch of radius 20 at the middle of the upper edge. */
function waisted(): Loop {
  const loop = roundedBox(240, 90, 14);
  return loop.flatMap((edge): readonly Segment[] => {
    const upper = edge.kind === 'line' && edge.from[1] === 45 && edge.to[1] === 45;
    if (!upper) return [edge];
    const notch = arc([30, 45], 12, 0, -Math.PI);
    return [line(edge.from, notch.from), notch, line(notch.to, edge.to)];
  });
}

/** The area enclosed by the sample's outline, in closed form. */
export const sampleOutlineArea = 240 * 90 - (4 - Math.PI) * 14 ** 2 - (Math.PI * 12 ** 2) / 2;
/** What its openings and cut holes take away, in closed form. */
export const sampleCutOut =
  38.123456 * 33.3 - (4 - Math.PI) * 12.7 ** 2 + Math.PI * 21.2 ** 2 + 2 * Math.PI * 8.5 ** 2;
