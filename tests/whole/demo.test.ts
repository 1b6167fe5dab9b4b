import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import DxfParser from 'dxf-parser';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Manifest } from '../../src/files/index.js';
import { openKernel, readStep } from '../../src/solid/index.js';
import { command } from '../support/command.js';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';

const root = path.resolve(import.meta.dirname, '../..');
const job = path.join(root, 'fixtures/hillclimb-four/job.yaml');
const folder = mkdtempSync(path.join(tmpdir(), 'tackwright-demo-'));
const made = path.join(folder, 'exports/hillclimb-four');
const manifest = (): Manifest =>
  JSON.parse(readFileSync(path.join(made, 'manifest.json'), 'utf8')) as Manifest;
const bytesOf = (): Map<string, string> =>
  new Map(readdirSync(made).map((file) => [file, readFileSync(path.join(made, file)).toString('base64')]));

/** The drill points and the outline's width of a flange's cut file, by a reader that is not ours. */
function flangeAsCut(where: string): { points: [number, number][]; width: number } {
  const file = readdirSync(where).find((name) => /^flange_.*\.dxf$/.test(name)) ?? '';
  const dxf = new DxfParser().parseSync(readFileSync(path.join(where, file), 'utf8'));
  const points = (dxf?.entities ?? [])
    .filter((entity) => entity.type === 'POINT')
    .map((entity): [number, number] => {
      const { position } = entity as unknown as { position: { x: number; y: number } };
      return [position.x, position.y];
    });
  const { $EXTMIN, $EXTMAX } = dxf?.header as unknown as Record<string, { x: number }>;
  return { points, width: ($EXTMAX?.x ?? NaN) - ($EXTMIN?.x ?? NaN) };
}

beforeAll(async () => {
  const ran = await command(folder, 'build', job);
  expect(ran).toMatchObject({ code: 0 });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the demo job', () => {
  it('leaves flange, merge plate, strongback and at least four cradles in every kind of file, every measure passing', () => {
    const files = manifest().files.map((file) => file.path);
    for (const plate of ['flange', 'merge-plate', 'strongback']) {
      expect(
        files.filter((file) => new RegExp(`^${plate}_\\d+x\\d+x\\d+-mm\\.dxf$`).test(file)),
      ).toHaveLength(1);
      expect(files).toContain(`${plate}.step`);
      expect(files).toContain(`${plate}.svg`);
    }
    const cradles = new Set(
      manifest()
        .files.map((file) => file.part)
        .filter((part) => part.startsWith('cradle')),
    );
    expect(cradles.size).toBeGreaterThanOrEqual(4);
    for (const cradle of cradles)
      for (const ending of ['step', '3mf', 'stl']) expect(files).toContain(`${cradle}.${ending}`);
    for (const file of files) expect(existsSync(path.join(made, file))).toBe(true);
    expect(manifest().measures.length).toBeGreaterThan(150);
    expect(manifest().measures.filter((measure) => !measure.ok)).toEqual([]);
  });

  it('built again from nothing gives the same bytes', async () => {
    const before = bytesOf();
    rmSync(made, { recursive: true });
    expect((await command(folder, 'build', job)).code).toBe(0);
    expect(bytesOf()).toEqual(before);
  }, 120_000);

  it('built again over itself makes nothing anew', async () => {
    const before = bytesOf();
    const ran = await command(folder, 'build', job, '--json');
    const { parts } = JSON.parse(ran.out) as { parts: { unchanged: boolean }[] };
    expect(parts.every((part) => part.unchanged)).toBe(true);
    expect(bytesOf()).toEqual(before);
  });

  it('--set ports.row.pitch=94 moves the holes and widens the outline in the DXF and in the STEP', async () => {
    const out = path.join(folder, 'wider');
    const before = flangeAsCut(made);
    const ran = await command(
      folder,
      'build',
      job,
      '--only',
      'flange',
      '--set',
      'ports.row.pitch=94',
      '--out',
      out,
    );
    expect(ran.code).toBe(0);
    const after = flangeAsCut(out);
    expect(after.width - before.width).toBeCloseTo(6, 5);
    expect(after.points).toHaveLength(8);
    before.points.forEach(([x, y], i) => {
      expect(after.points[i]?.[0]).toBeCloseTo(x + 2 * Math.floor(i / 2), 5);
      expect(after.points[i]?.[1]).toBeCloseTo(y, 5);
    });
    const kernel = await openKernel();
    const [solid] = readStep(kernel, readFileSync(path.join(out, 'flange.step'))).solids;
    const centres = (solid?.holes ?? []).map((hole) => [hole.at[0], hole.at[1]] as const);
    for (const [x, y] of after.points)
      expect(Math.min(...centres.map((c) => Math.hypot(c[0] - x, c[1] - y)))).toBeLessThan(1e-4);
    expect((solid?.bounds.high[0] ?? NaN) - (solid?.bounds.low[0] ?? NaN)).toBeCloseTo(after.width, 4);
  }, 60_000);

  it('the program as built does the same from another folder, and is quiet when piped', () => {
    const said = execFileSync(
      process.execPath,
      [
        path.join(root, 'dist/tackwright.js'),
        'build',
        job,
        '--only',
        'flange',
        '--formats',
        'dxf',
        '--out',
        'piped',
      ],
      { cwd: folder, encoding: 'utf8' },
    );
    expect(said).toMatch(/^good {2}piped: 1 files, \d+ of \d+ measures pass\n$/);
  });
});
