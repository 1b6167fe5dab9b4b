import { describe, expect, test } from 'vitest';
import type { Drawing, DxfOptions, Entity } from '../../src/files/dxf/drawing.js';
import { plateDrawing } from '../../src/files/dxf/plate-drawing.js';
import { readDxf } from '../../src/files/dxf/read.js';
import { writeDxf } from '../../src/files/dxf/write.js';
import type { Measure } from '../../src/files/measure/measure.js';
import { measurePlate } from '../../src/files/measure/plate.js';
import { arc, arcFromBulge, line } from '../../src/geom/arcs.js';
import { areaOf } from '../../src/geom/loops.js';
import { sampleCutOut, sampleOutlineArea, samplePlate } from './sample-plate.js';

const drawing = plateDrawing(samplePlate);
const bad = (rows: readonly Measure[]): readonly string[] =>
  rows.filter((row) => !row.ok).map((row) => row.what);
const valueOf = (rows: readonly Measure[], what: string): number | string | undefined =>
  rows.find((row) => row.what === what)?.measured;

const flavours: readonly DxfOptions[] = [
  { flavour: 'r2000' },
  { flavour: 'r12' },
  { flavour: 'r12-arcs' },
  { flavour: 'r2000', unit: 'in' },
  { flavour: 'r12-arcs', unit: 'in' },
  { flavour: 'r2000', oneLayer: true },
  { flavour: 'r12-arcs', oneLayer: true },
];

describe.each(flavours)('a plate read back by dxf-parser, %j', (options) => {
  // Six decimals of an inch are 2.54e-5 mm.
  const near = options.unit === 'in' ? 0.03 : 0.001;

  test('every measure is good, and areas are those of the closed form', async () => {
    const rows = await measurePlate(writeDxf(drawing, options), samplePlate, options);
    expect(bad(rows)).toEqual([]);
    expect(Math.abs(Number(valueOf(rows, 'area within the outline')) - sampleOutlineArea)).toBeLessThan(near);
    const left = Number(valueOf(rows, 'area left after cutting'));
    expect(Math.abs(left - (sampleOutlineArea - sampleCutOut))).toBeLessThan(near);
    // From stud 3's hole of 9 to the edge: 12 - 4.5.
    expect(Number(valueOf(rows, 'least web'))).toBeCloseTo(7.5, 3);
  });
});

test('radius, rise and area of an arc over a chord of 100 with bulge tan(22.5 deg), from the definition', () => {
  const bow = arcFromBulge([0, 0], [100, 0], 0.41421356237);
  if (bow.kind !== 'arc') throw new Error('a bulge gave a line');
  expect(bow.radius).toBeCloseTo(70.710678, 5);
  // The arc turns left, so it hangs below its chord.
  expect(bow.radius - bow.centre[1]).toBeCloseTo(20.710678, 5);
  expect(areaOf([bow, line([100, 0], [0, 0])])).toBeCloseTo(1426.9908, 4);
});

test('a clockwise arc comes back from LINE and ARC as the same edge', async () => {
  const hollow = arc([0, 0], 20, Math.PI, -Math.PI / 2);
  const loop = [hollow, line(hollow.to, [0, 40]), line([0, 40], [-40, 40]), line([-40, 40], hollow.from)];
  const text = writeDxf(
    { layers: drawing.layers, entities: [{ kind: 'contour', layer: 'CUT_OUTER', loop }] },
    { flavour: 'r12-arcs' },
  );
  const [run] = (await readDxf(text)).runs;
  expect(run?.closed).toBe(true);
  expect(Math.abs(areaOf(run?.loop ?? []))).toBeCloseTo(Math.abs(areaOf(loop)), 5);
});

describe('spoiled files are caught', () => {
  const changed = (change: (entity: Entity) => readonly Entity[]): Drawing => ({
    ...drawing,
    entities: drawing.entities.flatMap(change),
  });
  const measured = async (spoiled: Drawing, options: DxfOptions = {}): Promise<readonly string[]> =>
    bad(await measurePlate(writeDxf(spoiled, options), samplePlate, options));
  const outline = (entity: Entity): boolean => entity.kind === 'contour' && entity.layer === 'CUT_OUTER';
  const stud1 = (entity: Entity): boolean =>
    entity.kind === 'circle' && entity.centre[0] === -20 && entity.centre[1] === 25;

  test('a corner moved by 0.001 mm', async () => {
    const text = writeDxf(drawing);
    // The opening's straight side ends at x -70 + 38.123456 / 2.
    const moved = text.replace('-50.938272', '-50.939272');
    expect(moved).not.toBe(text);
    expect(bad(await measurePlate(moved, samplePlate))).toContain('edges off their place');
  });

  test('an outline that is not closed', async () => {
    const text = writeDxf(drawing);
    const open = text.replace('90\r\n10\r\n70\r\n1\r\n', '90\r\n10\r\n70\r\n0\r\n');
    expect(open).not.toBe(text);
    const found = bad(await measurePlate(open, samplePlate));
    expect(found).toEqual(expect.arrayContaining(['outlines', 'open contours']));
  });

  test('a single line left out of an outline of lines and arcs', async () => {
    const text = writeDxf(drawing, { flavour: 'r12-arcs' });
    const at = text.lastIndexOf('0\r\nLINE');
    const open = text.slice(0, at) + text.slice(text.indexOf('\r\n0\r\n', at) + 2);
    expect(bad(await measurePlate(open, samplePlate))).toEqual(
      expect.arrayContaining(['outlines', 'open contours']),
    );
  });

  test('a circle drawn twice', async () => {
    const found = await measured(changed((entity) => (stud1(entity) ? [entity, entity] : [entity])));
    expect(found).toEqual(expect.arrayContaining(['openings and cut holes', 'edges drawn twice']));
  });

  test('an outline drawn twice, as single lines and arcs', async () => {
    const found = await measured(
      changed((entity) => (outline(entity) ? [entity, entity] : [entity])),
      { flavour: 'r12-arcs' },
    );
    expect(found).not.toEqual([]);
  });

  test('a hole left out', async () => {
    const found = await measured(changed((entity) => (stud1(entity) ? [] : [entity])));
    expect(found).toEqual(
      expect.arrayContaining([
        'openings and cut holes',
        'stud 1: centre off its place',
        'area left after cutting',
      ]),
    );
  });

  test('a hole 0.001 mm too large', async () => {
    const found = await measured(
      changed((entity) =>
        stud1(entity) && entity.kind === 'circle' ? [{ ...entity, radius: 8.5005 }] : [entity],
      ),
    );
    expect(found).toEqual(expect.arrayContaining(['stud 1: diameter']));
  });

  test('a drill point left out', async () => {
    const found = await measured(
      changed((entity) => (entity.kind === 'point' && entity.at[0] > 0 ? [] : [entity])),
    );
    expect(found).toEqual(expect.arrayContaining(['places to drill', 'stud 4: drill point off its place']));
  });

  test('a hole over the edge', async () => {
    const found = await measured(
      changed((entity) =>
        stud1(entity) && entity.kind === 'circle' ? [{ ...entity, centre: [-20, 42] }] : [entity],
      ),
    );
    expect(found).toEqual(expect.arrayContaining(['contours that cross or touch', 'least web']));
  });

  test.each([
    [
      'crosses itself',
      [
        [-50, -20],
        [50, 20],
        [50, -20],
        [-50, 20],
      ],
    ],
    [
      'doubles back on itself',
      [
        [-50, -20],
        [50, -20],
        [50, 40],
        [50, 20],
        [-50, 20],
      ],
    ],
    [
      'touches itself',
      [
        [-50, -20],
        [50, -20],
        [50, 20],
        [0, -20],
        [-50, 20],
      ],
    ],
  ] as const)('an outline that %s', async (_, corners) => {
    const loop = corners.map((from, i) => line(from, corners[(i + 1) % corners.length] ?? from));
    const bare = { ...samplePlate, openings: [], holes: [], pockets: [], marks: [], outline: loop };
    const rows = await measurePlate(writeDxf(plateDrawing(bare)), bare);
    expect(bad(rows)).toEqual(['contours that cross or touch']);
  });

  test('a stroke across an opening', async () => {
    const found = await measured({
      ...drawing,
      entities: [
        ...drawing.entities,
        {
          kind: 'stroke',
          layer: 'ETCH',
          points: [
            [30, 0],
            [100, 0],
          ],
        },
      ],
    });
    expect(found).toEqual(['etched length', 'marks that leave the metal']);
  });

  test('inches that say they are millimetres', async () => {
    const text = writeDxf(drawing, { unit: 'in' }).replace('$INSUNITS\r\n70\r\n1', '$INSUNITS\r\n70\r\n4');
    const found = bad(await measurePlate(text, samplePlate, { unit: 'in' }));
    expect(found).toEqual(expect.arrayContaining(['unit', 'width', 'area within the outline']));
  });

  test('a spline among the cuts', async () => {
    const text = writeDxf(drawing).replace(
      '0\r\nENDSEC\r\n0\r\nSECTION\r\n2\r\nOBJECTS',
      '0\r\nSPLINE\r\n8\r\nCUT_OUTER\r\n70\r\n8\r\n0\r\nENDSEC\r\n0\r\nSECTION\r\n2\r\nOBJECTS',
    );
    expect(bad(await measurePlate(text, samplePlate))).toContain('things a table cannot cut');
  });

  test('half a file', async () => {
    const text = writeDxf(drawing);
    const [row, ...others] = await measurePlate(text.slice(0, text.length / 2), samplePlate);
    expect(others).toEqual([]);
    expect(row?.what).toBe('file can be read');
    expect(row?.ok).toBe(false);
  });
});
