import type { Point } from '../../src/base/points.js';
import type { PlatePart } from '../../src/design/parts.js';
import { circleLoop } from '../../src/geom/loops.js';
import type { CurveLoop, Loop } from '../../src/geom/segments.js';

/** A rounded rectangle, counter-clockwise: lines and quarter arcs. */
export function roundedRectangle(centre: Point, width: number, height: number, radius: number): Loop {
  const [x, y] = [width / 2 - radius, height / 2 - radius];
  const at = (dx: number, dy: number): Point => [centre[0] + dx, centre[1] + dy];
  const corner = (c: Point, from: Point, to: Point): Loop[number] => ({
    kind: 'arc',
    from,
    to,
    centre: c,
    radius,
    sweep: Math.PI / 2,
  });
  return [
    { kind: 'line', from: at(-x, -y - radius), to: at(x, -y - radius) },
    corner(at(x, -y), at(x, -y - radius), at(x + radius, -y)),
    { kind: 'line', from: at(x + radius, -y), to: at(x + radius, y) },
    corner(at(x, y), at(x + radius, y), at(x, y + radius)),
    { kind: 'line', from: at(x, y + radius), to: at(-x, y + radius) },
    corner(at(-x, y), at(-x, y + radius), at(-x - radius, y)),
    { kind: 'line', from: at(-x - radius, y), to: at(-x - radius, -y) },
    corner(at(-x, -y), at(-x - radius, -y), at(-x, -y - radius)),
  ];
}

/** A whole ellipse in two pieces. */
export function ellipseLoop(centre: Point, major: number, minor: number, turn: number): CurveLoop {
  const end: Point = [major * Math.cos(turn), major * Math.sin(turn)];
  const right: Point = [centre[0] + end[0], centre[1] + end[1]];
  const left: Point = [centre[0] - end[0], centre[1] - end[1]];
  const half = { kind: 'ellipse', centre, major, minor, turn, sweep: Math.PI } as const;
  return [
    { ...half, from: right, to: left, start: 0 },
    { ...half, from: left, to: right, start: Math.PI },
  ];
}

/** A plate with nothing in it, to be spread and changed. */
export const plainPlate = (over: Partial<PlatePart> = {}): PlatePart => ({
  kind: 'plate',
  name: 'test-plate',
  family: 'flange',
  title: 'Test plate',
  material: '304L',
  thickness: 10,
  outline: roundedRectangle([0, 0], 420, 90, 20),
  openings: [],
  holes: [],
  pockets: [],
  marks: [],
  view: 'seen from the tube side',
  remarks: [],
  leastWeb: { asked: 8, found: 12, where: 'not looked at' },
  ...over,
});

/** A port flange for four ports: invented, of the size a flange has. */
export const flangePlate = (over: Partial<PlatePart> = {}): PlatePart =>
  plainPlate({
    name: 'flange',
    openings: [-138, -46, 46, 138].map((x, i) => ({
      name: `port P${i + 1}`,
      loop: roundedRectangle([x, 0], 38, 34, 10),
      exact: undefined,
    })),
    holes: [-184, -92, 0, 92, 184].flatMap((x) =>
      [30, -30].map((y) => ({
        name: `stud ${x} ${y}`,
        at: [x, y] as const,
        diameter: 9,
        made: 'cut' as const,
      })),
    ),
    ...over,
  });

/** A round blank. */
export const disc = (radius: number): Loop => circleLoop([0, 0], radius);
