import { describe, expect, test } from 'vitest';
import { arc, line } from '../../src/geom/arcs.js';
import type { Drawing, DxfOptions } from '../../src/files/dxf/drawing.js';
import { plateDrawing } from '../../src/files/dxf/plate-drawing.js';
import { writeDxf } from '../../src/files/dxf/write.js';
import { circleLoop } from '../../src/geom/loops.js';
import type { Loop } from '../../src/geom/segments.js';
import { entitiesOf, groupsOf, headerOf, valuesOf } from './dxf-groups.js';
import { samplePlate } from './sample-plate.js';

const plate = plateDrawing(samplePlate);
const one = (loop: Loop): Drawing => ({
  layers: plate.layers,
  entities: [{ kind: 'contour', layer: 'CUT_OUTER', loop }],
});
const flavours: readonly DxfOptions[] = [
  { flavour: 'r2000' },
  { flavour: 'r12' },
  { flavour: 'r12-arcs' },
  { flavour: 'r2000', unit: 'in' },
  { flavour: 'r12', oneLayer: true },
];

describe('bulges, against the DXF reference: tangent of a quarter of the included angle', () => {
  test.each([
    [30, 0.131652498],
    [45, 0.198912367],
    [60, 0.267949192],
    [90, 0.414213562],
    [120, 0.577350269],
    [180, 1],
    [-90, -0.414213562],
  ])('an arc of %d degrees is written with bulge %d', (included, bulge) => {
    const sweep = (included * Math.PI) / 180;
    const bow = arc([3, 4], 50, 0.3, sweep);
    const [polyline] = entitiesOf(writeDxf(one([bow, line(bow.to, bow.from)])), 'LWPOLYLINE');
    const [written] = valuesOf(polyline ?? [], 42);
    expect(written).toBeCloseTo(bulge, 9);
  });

  test('a circle drawn as two half circles has two corners, two bulges of 1 and is closed (own derivation)', () => {
    const [polyline = []] = entitiesOf(writeDxf(one(circleLoop([0, 0], 10))), 'LWPOLYLINE');
    expect(valuesOf(polyline, 90)).toEqual([2]);
    expect(valuesOf(polyline, 42)).toEqual([1, 1]);
    expect(valuesOf(polyline, 70)).toEqual([1]);
  });
});

describe('group codes, against the DXF reference (LWPOLYLINE, ARC; the others from memory)', () => {
  test('LWPOLYLINE: 90 counts the corners, 70 is 1 for closed, 43 the width, 10 and 20 the corners', () => {
    const contours = entitiesOf(writeDxf(plate), 'LWPOLYLINE').filter(
      (groups) => valuesOf(groups, 70)[0] === 1,
    );
    // The etched slot, the port's opening and the outline with its notch; the round ones are circles.
    expect(contours.map((groups) => valuesOf(groups, 90)[0])).toEqual([4, 8, 10]);
    for (const groups of contours) {
      const [count] = valuesOf(groups, 90);
      expect(valuesOf(groups, 10)).toHaveLength(count ?? -1);
      expect(valuesOf(groups, 20)).toHaveLength(count ?? -1);
      expect(valuesOf(groups, 43)).toEqual([0]);
    }
  });

  test('ARC: 10, 20 centre, 40 radius, 50 and 51 start and end in degrees, counter-clockwise', () => {
    const quarter = arc([10, 20], 5, Math.PI / 2, -Math.PI / 2);
    const text = writeDxf(one([quarter, line(quarter.to, quarter.from)]), { flavour: 'r12-arcs' });
    const [found = []] = entitiesOf(text, 'ARC');
    expect([10, 20, 40, 50, 51].map((code) => valuesOf(found, code)[0])).toEqual([10, 20, 5, 0, 90]);
    const [side = []] = entitiesOf(text, 'LINE');
    expect([10, 20, 11, 21].map((code) => valuesOf(side, code)[0])).toEqual([15, 20, 10, 25]);
  });

  test('CIRCLE: 10, 20 centre, 40 radius', () => {
    const [stud = []] = entitiesOf(writeDxf(plate), 'CIRCLE').filter(
      (groups) => valuesOf(groups, 40)[0] === 8.5,
    );
    expect([10, 20, 40].map((code) => valuesOf(stud, code)[0])).toEqual([-20, 25, 8.5]);
  });

  test('header: $ACADVER, $INSUNITS 4 for mm and 1 for inch, $MEASUREMENT 1 for metric', () => {
    expect(headerOf(writeDxf(plate), '$ACADVER')).toEqual(['AC1015']);
    expect(headerOf(writeDxf(plate, { flavour: 'r12' }), '$ACADVER')).toEqual(['AC1009']);
    expect(headerOf(writeDxf(plate), '$INSUNITS')).toEqual(['4']);
    expect(headerOf(writeDxf(plate), '$MEASUREMENT')).toEqual(['1']);
    expect(headerOf(writeDxf(plate, { unit: 'in' }), '$INSUNITS')).toEqual(['1']);
    expect(headerOf(writeDxf(plate, { unit: 'in' }), '$MEASUREMENT')).toEqual(['0']);
  });

  test('LWPOLYLINE is not written in R12, which does not know it (from memory)', () => {
    const text = writeDxf(plate, { flavour: 'r12' });
    expect(entitiesOf(text, 'LWPOLYLINE')).toHaveLength(0);
    expect(entitiesOf(text, 'POLYLINE').filter((groups) => valuesOf(groups, 70)[0] === 1)).toHaveLength(3);
  });
});

test('extents in the header are the true box of the arcs, not of their ends: a circle of radius 10 at (1, 2)', () => {
  const text = writeDxf(one([arc([1, 2], 10, 0.7, Math.PI), arc([1, 2], 10, 0.7 + Math.PI, Math.PI)]));
  expect(headerOf(text, '$EXTMIN').map(Number)).toEqual([-9, -8, 0]);
  expect(headerOf(text, '$EXTMAX').map(Number)).toEqual([11, 12, 0]);
});

test.each(flavours)('only lines, arcs, circles and points are written: %j', (options) => {
  const text = writeDxf(plate, options);
  for (const kind of ['SPLINE', 'ELLIPSE', 'TEXT', 'MTEXT', 'DIMENSION', 'INSERT', 'HATCH'])
    expect(entitiesOf(text, kind)).toHaveLength(0);
});

test.each(flavours)(
  'lines end in CR LF, coordinates have at most 6 decimals, nothing is minus zero: %j',
  (options) => {
    const text = writeDxf(plate, options);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const decimals = (code: number): number =>
      Math.max(
        0,
        ...groupsOf(text)
          .filter(([c]) => c === code)
          .map(([, value]) => value.split('.')[1]?.length ?? 0),
      );
    expect(Math.max(...[11, 21, 30].map(decimals))).toBeLessThanOrEqual(6);
    expect(Math.max(decimals(10), decimals(20))).toBeLessThanOrEqual(options.flavour === 'r12-arcs' ? 9 : 6);
    expect(decimals(42)).toBeLessThanOrEqual(12);
    expect(groupsOf(text).filter(([, value]) => /^-0(\.0*)?$/.test(value))).toEqual([]);
  },
);

test('every handle is given out once, and $HANDSEED is above them all', () => {
  const text = writeDxf(plate);
  const handles = groupsOf(text)
    .filter(([code], i) => (code === 5 || code === 105) && i > 4)
    .map(([, value]) => parseInt(value, 16));
  const seed = parseInt(headerOf(text, '$HANDSEED')[0] ?? '', 16);
  const given = handles.filter((handle) => handle !== seed);
  expect(new Set(given).size).toBe(given.length);
  expect(seed).toBeGreaterThan(Math.max(...given));
});

test('on one layer no etched stroke is left for the table to cut, and everything stands on layer 0', () => {
  const text = writeDxf(plate, { oneLayer: true });
  const layers = groupsOf(text).filter(([code]) => code === 8);
  expect(new Set(layers.map(([, value]) => value))).toEqual(new Set(['0']));
  const open = entitiesOf(text, 'LWPOLYLINE').filter((groups) => valuesOf(groups, 70)[0] === 0);
  expect(open).toHaveLength(0);
  expect(entitiesOf(text, 'POINT')).toHaveLength(4);
});

test('an edge shrunk to nothing by the rounding leaves no doubled corner', () => {
  const sliver = 2e-7;
  const loop: Loop = [
    line([0, 0], [10, 0]),
    line([10, 0], [10 + sliver, sliver]),
    line([10 + sliver, sliver], [10, 10]),
    line([10, 10], [0, 0]),
  ];
  const [polyline = []] = entitiesOf(writeDxf(one(loop)), 'LWPOLYLINE');
  expect(valuesOf(polyline, 90)).toEqual([3]);
});

test('a number that is not finite is refused, not written', () => {
  const drawing: Drawing = { layers: [], entities: [{ kind: 'point', layer: 'DRILL', at: [NaN, 0] }] };
  expect(() => writeDxf(drawing)).toThrow('not finite');
});

describe('the cross at a drilled hole', () => {
  const arms = (holeAt: readonly [number, number], diameter: number): readonly number[] =>
    plateDrawing({
      ...samplePlate,
      marks: [],
      pockets: [],
      openings: [],
      holes: [{ name: 'stud', at: holeAt, diameter, made: 'drilled' }],
    }).entities.flatMap((entity) =>
      entity.kind === 'stroke'
        ? entity.points.map((p) => Math.hypot(p[0] - holeAt[0], p[1] - holeAt[1]))
        : [],
    );

  test('reaches 3 mm from the point in a hole of 9 (own choice)', () => {
    expect(arms([0, 0], 9)).toEqual([3, 3, 3, 3]);
  });
  test('stays within a hole of 4, so that the drill takes it away', () => {
    expect(Math.max(...arms([0, 0], 4))).toBeCloseTo(1.6, 12);
  });
  test('stops short of an edge 2 mm away', () => {
    expect(Math.max(...arms([118, 0], 9))).toBeCloseTo(1.6, 12);
  });
  test('is left out where the point lies on an edge', () => {
    expect(arms([120, 0], 9)).toEqual([]);
  });
});
