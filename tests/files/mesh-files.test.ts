import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Module from 'manifold-3d';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { boxOf, volumeOf } from '../../src/files/mesh/mesh.js';
import { readStl, writeStl } from '../../src/files/mesh/stl.js';
import { welded } from '../../src/files/mesh/weld.js';
import { read3mf, write3mf } from '../../src/files/mesh/three-mf.js';
import type { Measure } from '../../src/files/measure/measure.js';
import { measure3mf, measureMesh, measureStl, type PrintAsked } from '../../src/files/measure/print.js';
import { changed, pipe, pipeVolume } from './sample-mesh.js';

const ring = pipe(21.2, 19.6, 30, 48);
const volume = pipeVolume(21.2, 19.6, 30, 48);
const asked: PrintAsked = { name: 'cradle-P1-1', volume, deflection: 1e-4, bed: [220, 220, 250] };
const bad = (rows: readonly Measure[]): readonly string[] =>
  rows.filter((row) => !row.ok).map((row) => row.what);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tackwright-mesh-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

test('volume and box of a pipe of 48 flat sides, against the area of a regular polygon', () => {
  expect(volumeOf(ring)).toBeCloseTo(volume, 6);
  expect(boxOf(ring).most[2] - boxOf(ring).least[2]).toBe(30);
});

test('welding makes one corner of twins that the arithmetic put a billionth apart, on either side of a rounding', () => {
  const twin = changed(ring, (positions) => {
    positions.forEach((value, i) => (positions[i] = value + (i % 2 === 0 ? 1e-9 : -1e-9) + 1e-3));
  });
  expect(welded(twin, (value) => value).positions.length / 3).toBe(48 * 4);
});

describe('STL', () => {
  const stl = writeStl(ring, 'cradle-P1-1');

  test('84 bytes and 50 for each triangle, the count little-endian at 80 (STL specification, from memory)', () => {
    expect(stl.length).toBe(84 + 50 * 48 * 8);
    expect(new DataView(stl.buffer).getUint32(80, true)).toBe(48 * 8);
    expect(new TextDecoder().decode(stl.slice(0, 11))).toBe('cradle-P1-1');
  });

  test('a title that begins with "solid" does not make a binary file look like text', () => {
    expect(new TextDecoder().decode(writeStl(ring, 'Solid base').slice(0, 5))).not.toMatch(/^solid/i);
  });

  test('every measure is good', () => {
    expect(bad(measureStl(stl, asked))).toEqual([]);
  });

  test("three's loader reads the same triangles, and normals that point as the corners turn", () => {
    const read = new STLLoader().parse(stl.buffer as ArrayBuffer);
    const [at, normal] = [read.getAttribute('position'), read.getAttribute('normal')];
    const ours = readStl(stl);
    expect(at.count).toBe(ours.triangles.length);
    const corners = {
      positions: Float64Array.from(at.array),
      triangles: Uint32Array.from({ length: at.count }, (_, i) => i),
    };
    expect(volumeOf(corners)).toBeCloseTo(volumeOf(ours), 6);
    // The first side of the pipe faces half a step round from x.
    expect(Math.atan2(normal.getY(0), normal.getX(0))).toBeCloseTo(Math.PI / 48, 5);
  });

  test('admesh finds nothing to mend: no open edge, no turned triangle, one part, the volume', (context) => {
    context.skip(spawnSync('admesh', ['--version']).status !== 0, 'skipped: needs admesh');
    const name = path.join(folder, 'ring.stl');
    writeFileSync(name, stl);
    const { stdout } = spawnSync('admesh', [name], { encoding: 'utf8' });
    const numberAfter = (label: string): number =>
      Number(new RegExp(`${label}\\s*:\\s*([-\\d.]+)`).exec(stdout)?.[1]);
    expect(numberAfter('Number of parts')).toBe(1);
    expect(Math.abs(numberAfter('Volume') - volume)).toBeLessThan(0.5);
    for (const fault of [
      'Degenerate facets',
      'Edges fixed',
      'Facets removed',
      'Facets added',
      'Facets reversed',
      'Backwards edges',
      'Normals fixed',
    ])
      expect([fault, numberAfter(fault)]).toEqual([fault, 0]);
  });

  test('manifold-3d takes it as a closed body of one hole, and its volume is the same', async () => {
    const kernel = await Module();
    kernel.setup();
    const read = readStl(stl);
    const body = new kernel.Manifold(
      new kernel.Mesh({
        numProp: 3,
        vertProperties: Float32Array.from(read.positions),
        triVerts: read.triangles,
      }),
    );
    expect(body.status()).toBe('NoError');
    expect(body.genus()).toBe(1);
    expect(body.volume()).toBeCloseTo(volume, 2);
  });
});

test('a printed part is measured from either format against its solid', async () => {
  const R = 21.2;
  const solid = { volume, bounds: { low: [-R, -R, 0], high: [R, R, 30] } } as const;
  for (const format of ['stl', '3mf'] as const) {
    const bytes = format === 'stl' ? writeStl(ring, 'ring') : await write3mf([{ name: 'ring', mesh: ring }]);
    const rows = await measureMesh({ name: 'ring' }, solid, bytes, format, [220, 220, 250], 1e-3);
    expect(bad(rows)).toEqual([]);
    const taller = { ...solid, bounds: { ...solid.bounds, high: [R, R, 30.01] } } as const;
    expect(bad(await measureMesh({ name: 'ring' }, taller, bytes, format, [220, 220, 250], 1e-3))).toEqual([
      'size along z',
    ]);
  }
});

describe('spoiled meshes are caught', () => {
  const measured = (
    change: Parameters<typeof changed>[1],
    more: Partial<PrintAsked> = {},
  ): readonly string[] => bad(measureStl(writeStl(changed(ring, change), 'spoiled'), { ...asked, ...more }));
  const seam = 'edges not shared by two triangles that run opposite';

  test('a triangle left out', () => {
    expect(measured((_, triangles) => triangles.splice(0, 3))).toContain(seam);
  });
  test('a triangle turned over', () => {
    expect(measured((_, triangles) => triangles.splice(0, 3, 0, 2, 1))).toContain(seam);
  });
  test('a triangle drawn twice', () => {
    expect(measured((_, triangles) => triangles.push(0, 1, 2))).toContain(seam);
  });
  test('inside out', () => {
    expect(measured((_, triangles) => triangles.reverse())).toEqual(
      expect.arrayContaining(['skin faces', 'volume']),
    );
  });
  test('sunk 0.01 mm into the bed, or floating over it', () => {
    const shifted = (by: number) => (positions: number[]) =>
      positions.forEach((value, i) => (positions[i] = i % 3 === 2 ? value + by : value));
    expect(measured(shifted(-0.01))).toEqual(['lowest point, on the bed']);
    expect(measured(shifted(0.01))).toEqual(['lowest point, on the bed']);
  });
  test('longer than the printer', () => {
    expect(measured(() => {}, { bed: [42, 220, 250] })).toEqual(['x within the printer']);
  });
  test('two bodies', () => {
    const second = pipe(5, 4, 30, 12, [60, 0]);
    const two = changed(ring, (positions, triangles) => {
      const first = positions.length / 3;
      positions.push(...second.positions);
      triangles.push(...[...second.triangles].map((corner) => corner + first));
    });
    const both = volume + pipeVolume(5, 4, 30, 12);
    expect(bad(measureStl(writeStl(two, 'two'), { ...asked, volume: both }))).toEqual(['bodies']);
  });
  test('a solid of another volume or size', () => {
    const box = { least: [-21.2, -21.2, 0], most: [21.2, 21.2, 31] } as const;
    expect(measured(() => {}, { volume: volume + 2, box })).toEqual(['volume', 'size along z']);
  });
  test('a file cut short', () => {
    expect(bad(measureStl(writeStl(ring, 'x').slice(0, 1000), asked))).toEqual(['file can be read']);
  });
  test('a corner that is not finite is refused', () => {
    expect(() =>
      writeStl(
        changed(ring, (positions) => (positions[7] = NaN)),
        'x',
      ),
    ).toThrow('not finite');
  });
});

describe('3MF', () => {
  const two = [
    { name: 'cradle-P1-1', mesh: ring },
    { name: 'foot & "tab" <2>', mesh: pipe(10, 4, 12, 24) },
  ];
  const second = {
    name: 'foot & "tab" <2>',
    volume: pipeVolume(10, 4, 12, 24),
    deflection: 1e-4,
    bed: asked.bed,
  };

  test('every measure of both prints is good', async () => {
    expect(bad(await measure3mf(await write3mf(two), [asked, second]))).toEqual([]);
  });

  test('the same prints give the same bytes, with the earliest time a ZIP can hold and no other', async () => {
    const [first, again] = [await write3mf(two), await write3mf(two)];
    expect(Buffer.compare(first, again)).toBe(0);
    // Local header: signature at 0, time at 10, date at 12; 1980-01-01 is 0 << 9 | 1 << 5 | 1 (ZIP APPNOTE 4.4.6).
    const view = new DataView(first.buffer, first.byteOffset);
    expect(view.getUint32(0, true)).toBe(0x04034b50);
    expect(view.getUint16(10, true)).toBe(0);
    expect(view.getUint16(12, true)).toBe((1 << 5) | 1);
  });

  test("python's zipfile and XML reader find millimetre, both names, both prints placed, and the volume", async (context) => {
    const python = '/usr/bin/python3';
    context.skip(spawnSync(python, ['--version']).status !== 0, 'skipped: needs python3');
    const name = path.join(folder, 'two.3mf');
    writeFileSync(name, await write3mf(two));
    const read = spawnSync(python, ['-c', reader, name], { encoding: 'utf8' });
    expect(read.stderr).toBe('');
    const found = JSON.parse(read.stdout) as {
      entries: string[];
      unit: string;
      names: string[];
      volumes: number[];
      placed: string[];
      metadata: number;
    };
    expect(found.entries).toEqual(['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']);
    expect(found.unit).toBe('millimeter');
    expect(found.metadata).toBe(0);
    expect(found.names).toEqual(['cradle-P1-1', 'foot & "tab" <2>']);
    expect(found.volumes[0]).toBeCloseTo(volume, 1);
    expect(found.volumes[1]).toBeCloseTo(second.volume, 1);
    // Side by side: the second begins 10 mm past the first, which is 42.4 wide from 0.
    expect(found.placed).toEqual(['1 0 0 0 1 0 0 0 1 21.2 21.2 0', '1 0 0 0 1 0 0 0 1 62.4 10 0']);
  });

  test('a name or a print that is missing is caught', async () => {
    const one = await write3mf(two.slice(0, 1));
    expect(bad(await measure3mf(one, [{ ...asked, name: 'other' }]))).toEqual(['name']);
    expect(bad(await measure3mf(one, [asked, second]))).toContain('prints in the file');
    expect(bad(await measure3mf(new Uint8Array(30), [asked]))).toEqual(['file can be read']);
  });

  test('reading back gives corners rounded to 0.00001 mm', async () => {
    const [print] = (await read3mf(await write3mf(two))).prints;
    const off = print?.mesh.positions.map((value) => Math.abs(value * 1e5 - Math.round(value * 1e5)));
    expect(Math.max(...(off ?? [1]))).toBeLessThan(1e-6);
    expect(Math.abs(volumeOf(print?.mesh ?? ring) - volume)).toBeLessThan(0.05);
  });
});

const reader = `
import sys, json, zipfile, xml.etree.ElementTree as ET
pack = zipfile.ZipFile(sys.argv[1])
assert pack.testzip() is None
root = ET.fromstring(pack.read('3D/3dmodel.model'))
ns = {'m': 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02'}
def volume(obj):
    v = [[float(e.get(k)) for k in 'xyz'] for e in obj.iterfind('.//m:vertex', ns)]
    six = 0
    for t in obj.iterfind('.//m:triangle', ns):
        a, b, c = (v[int(t.get(k))] for k in ('v1', 'v2', 'v3'))
        six += a[0]*(b[1]*c[2]-b[2]*c[1]) + a[1]*(b[2]*c[0]-b[0]*c[2]) + a[2]*(b[0]*c[1]-b[1]*c[0])
    return six / 6
objects = root.findall('.//m:object', ns)
print(json.dumps({'entries': pack.namelist(), 'unit': root.get('unit'), 'names': [o.get('name') for o in objects],
    'volumes': [volume(o) for o in objects], 'placed': [i.get('transform') for i in root.iterfind('.//m:item', ns)],
    'metadata': len(root.findall('.//m:metadata', ns))}))
`;
