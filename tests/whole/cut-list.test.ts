import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { refused } from '../design/pieces/refused.js';
import { command, inFolder } from '../support/command.js';

interface Record {
  readonly pieces: readonly { readonly primary: string; readonly kind: string; readonly length?: number }[];
  readonly totals: {
    readonly welds: number;
    readonly cost: number;
    readonly bound: number;
    readonly proved: boolean;
  };
}

it.each(['by-hand-four', 'hillclimb-four'])(
  '%s leaves a cut list, its cost proved; a build of another part carries it over unmarked',
  async (name) => {
    await inFolder(async (folder) => {
      const job = path.resolve(`fixtures/${name}/job.yaml`);
      expect((await command(folder, 'build', job, '--only', 'cut-list')).code).toBe(0);
      const made = path.join(folder, 'exports', name);
      const record = JSON.parse(readFileSync(path.join(made, 'cut-list.json'), 'utf8')) as Record;
      expect(record.totals.proved).toBe(true);
      expect(record.totals.cost).toBeCloseTo(record.totals.bound, 6);
      // Every weld but those at the flanges joins two pieces of one primary.
      expect(record.pieces.length).toBe(record.totals.welds);
      expect(new Set(record.pieces.map((piece) => piece.primary))).toEqual(new Set(['P1', 'P2', 'P3', 'P4']));
      const csv = readFileSync(path.join(made, 'cut-list.csv'), 'utf8').trim().split('\r\n');
      expect(csv.length).toBeGreaterThan(record.pieces.length);
      expect(new Set(csv.map((line) => line.split(',').length))).toEqual(new Set([28]));

      const { code, error } = await command(
        folder,
        'build',
        job,
        '--only',
        'merge-plate',
        '--formats',
        'dxf',
      );
      expect(code).toBe(0);
      expect(error).not.toContain('stale');
      const moved = await command(
        folder,
        'build',
        job,
        '--only',
        'merge-plate',
        '--formats',
        'dxf',
        '--set',
        'ports.row.pitch=93',
      );
      expect(moved.error).toMatch(
        /files of the cut list are of the job as it was|carried over .*cut-list\.json/,
      );
    });
  },
);

it('a route record beside the job that no longer fits it stops the build, at the place in the record', async () => {
  await inFolder(async (folder) => {
    const text = readFileSync('fixtures/by-hand-four/job.yaml', 'utf8');
    const rack = readFileSync('fixtures/hillclimb-four/rack.yaml', 'utf8');
    const { writeFileSync } = await import('node:fs');
    const freed = text
      .replace(/ {2}by_hand:[\s\S]*?(?=\nkeep_outs:)/, '')
      .replace('../hillclimb-four/rack.yaml', 'rack.yaml')
      .replace(/ {4}at:\n( {6}- .*\n)+/, '    at: auto\n');
    writeFileSync(path.join(folder, 'job.yaml'), freed);
    writeFileSync(path.join(folder, 'rack.yaml'), rack);
    const before = await command(folder, 'check', 'job.yaml');
    expect(before.code).toBe(0);
    expect(before.error).toContain('[route/not-routed]');
    const routed = await command(folder, 'route', 'job.yaml', '--effort', 'quick');
    expect(routed.code).toBe(0);
    expect(routed.out).toMatch(/4 primaries of 615 mm, 1[23] welds/);
    const built = await command(folder, 'build', 'job.yaml', '--only', 'cradle,primary', '--formats', 'step');
    expect(built.code).toBe(0);
    const moved = await command(
      folder,
      'build',
      'job.yaml',
      '--set',
      'ports.row.pitch=93',
      '--only',
      'primary',
    );
    expect(moved.code).toBe(2);
    expect(moved.error).toContain('[route/off-job]');
    expect(moved.error).toContain('routes.yaml');
    // The plates need no routes: they are made, the rest is left out and said so.
    const plates = await command(
      folder,
      'build',
      'job.yaml',
      '--set',
      'ports.row.pitch=93',
      '--formats',
      'dxf',
      '--out',
      'plates',
    );
    expect(plates.code).toBe(0);
    expect(plates.error).toMatch(/^warning {2}routes\.yaml.*\[route\/off-job\]/m);
    expect(plates.error).toContain('left out');
    const made = readdirSync(path.join(folder, 'plates'));
    expect(made.filter((file) => /^(flange|merge-plate|strongback)_.*\.dxf$/.test(file))).toHaveLength(3);
    expect(made.filter((file) => /cradle|primary|cut-list|routes/.test(file))).toEqual([]);
    writeFileSync(path.join(folder, 'routes.yaml'), 'primaries: [{ id: P1, rows: [{ straight: -3 }] }]\n');
    const broken = await command(folder, 'build', 'job.yaml', '--only', 'primary');
    expect(broken.code).toBe(2);
    expect(broken.error).toMatch(/routes\.yaml:1:\d+ .*\[route\/bad-record\]/s);
  });
}, 120_000);

it('x-wall is refused with exit code 3: proved impossible, with the wall named', async () => {
  await inFolder(async (folder) => {
    const { code, error } = await command(
      folder,
      'route',
      path.resolve('tests/routing-cases/x-wall/job.yaml'),
      '--record',
      'r.json',
    );
    expect(code).toBe(3);
    expect(error).toContain('[route/impossible]');
    expect(error).toContain('bulkhead');
  });
});

it('what cannot be cut of routes that were found is told at their row in the record', async () => {
  await inFolder(async (folder) => {
    cpSync('fixtures/hillclimb-four', folder, { recursive: true });
    const rack = path.join(folder, 'rack.yaml');
    // Gone are the bends of CLR 63.6, of which P1 has one at its fourth row.
    writeFileSync(rack, readFileSync(rack, 'utf8').replace(/^.*clr: 63\.6.*\n/m, ''));
    const { code, error } = await command(folder, 'build', 'job.yaml', '--only', 'cut-list');
    expect(code).toBe(3);
    const [, line, key] = /routes\.yaml:(\d+):\d+ +(\S+) +\[pieces\/clr-not-on-rack\]/.exec(error) ?? [];
    expect(key).toBe('primaries.0.rows.3');
    const text = readFileSync(path.join(folder, 'routes.yaml'), 'utf8').split('\n');
    expect(text[Number(line) - 1]).toContain('63.6');
  });
});

it('an insert too short at the flange is told as that, though a wrench leaves it no place for a weld either', async () => {
  const [, job = '', rack = ''] =
    refused.find(([code, text]) => code === 'pieces/sliver' && text.includes('straight: 24.4')) ?? [];
  await inFolder(async (folder) => {
    writeFileSync(
      path.join(folder, 'job.yaml'),
      job.replace('job: refused', 'job: refused\nrack: rack.yaml'),
    );
    writeFileSync(path.join(folder, 'rack.yaml'), rack);
    const cut = (...more: string[]) => command(folder, 'build', 'job.yaml', '--only', 'cut-list', ...more);
    const { code, error } = await cut();
    expect(code).toBe(3);
    expect(error).toContain('the least insert at the flange (20 mm on its short side) is 24.5 mm');
    // Made so much longer, what stands there is told next, with what would free it.
    const longer = await cut('--set', 'primaries.by_hand.P1.0.straight=24.6');
    expect(longer.error).toMatch(/no-weld-spot[^]*wrench space of stud \d[^]*free [\d.]+ mm/);
  });
});
