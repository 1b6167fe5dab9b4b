import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { command, inFolder, type Ran } from '../support/command.js';

/*
 * A build whose routes no longer fit the job makes plates only. What lies there of the tubes was perhaps cut and
 * printed already: the user's only record of it must stay, byte for byte, and say that it is of another job.
 */
interface Lying {
  readonly path: string;
  readonly sha256: string;
  readonly part: string;
  readonly stale?: true;
}

const lying = (folder: string): readonly Lying[] =>
  (
    JSON.parse(readFileSync(path.join(folder, 'exports/hillclimb-four/manifest.json'), 'utf8')) as {
      files: readonly Lying[];
    }
  ).files;
const alongRoutes = ({ part }: Lying): boolean => /^(primary-|cradle-|cut-list$|routes$)/.test(part);
const facts = (files: readonly Lying[]): readonly unknown[] =>
  files.filter(alongRoutes).map(({ path, sha256 }) => [path, sha256]);

it('a build with routes off the job keeps what was made along them, marked; routed and built, all is fresh', async () => {
  await inFolder(async (folder) => {
    for (const name of ['job.yaml', 'rack.yaml', 'routes.yaml'])
      copyFileSync(`fixtures/hillclimb-four/${name}`, path.join(folder, name));
    const build = (...more: string[]): Promise<Ran> => command(folder, 'build', 'job.yaml', ...more);
    expect((await build()).code).toBe(0);
    const before = lying(folder);
    const bytes = new Map(
      before.map(({ path: file }) => [file, readFileSync(path.join(folder, 'exports/hillclimb-four', file))]),
    );
    expect(before.filter(alongRoutes).length).toBeGreaterThan(25);
    expect(before.filter(({ stale }) => stale)).toEqual([]);
    const marked = (): readonly string[] =>
      lying(folder)
        .filter(({ stale }) => stale)
        .map(({ path }) => path);

    const text = readFileSync(path.join(folder, 'job.yaml'), 'utf8');
    expect(text).toContain('pitch: 92');
    writeFileSync(path.join(folder, 'job.yaml'), text.replace('pitch: 92', 'pitch: 94'));
    const off = await build();
    expect(off.code).toBe(0);
    const kept = lying(folder);
    expect(facts(kept)).toEqual(facts(before));
    for (const { path: file } of kept.filter(alongRoutes))
      expect(
        readFileSync(path.join(folder, 'exports/hillclimb-four', file)).equals(
          bytes.get(file) ?? Buffer.of(),
        ),
      ).toBe(true);
    const old = kept.filter(alongRoutes);
    expect(marked()).toEqual(old.map(({ path }) => path));
    expect(off.error).toContain(
      `${old.length} files of tubes, cradles, the cut list and the routes are of the job as it was`,
    );
    expect(off.error).toContain('run `tackwright route job.yaml`, then build again');
    expect(off.out).toContain(`(${old.length} of the job as it was)`);
    // The plate grew by three pitches of 2 mm: 3 x 94 = 282.
    expect(kept.filter(({ part }) => part === 'flange').map(({ path }) => path)).toContain(
      'flange_381x71x10-mm.dxf',
    );

    // Built again, nothing is forgotten: neither by the folder nor by the terminal.
    const again = await build();
    expect([again.error, marked()]).toEqual([off.error, old.map(({ path }) => path)]);

    // No cut list is of this job, so no rack is left of it; the build is told all the same.
    const rack = await build('--rack-after', 'rack-2.yaml');
    expect(rack.code).toBe(2);
    expect(rack.error).toContain('[build/no-cut-list]');
    expect(rack.error).toContain('[file/stale]');
    expect(rack.out).toContain('good');

    // The pitch put back: the very files are good again, and known to be so.
    writeFileSync(path.join(folder, 'job.yaml'), text);
    expect((await build()).error).not.toContain('file/stale');
    expect([marked(), facts(lying(folder))]).toEqual([[], facts(before)]);
    expect((await build()).out).toContain('nothing has changed');

    writeFileSync(path.join(folder, 'job.yaml'), text.replace('pitch: 92', 'pitch: 94'));
    expect((await build()).error).toContain('file/stale');
    expect((await command(folder, 'route', 'job.yaml', '--effort', 'quick', '--seed', '3')).code).toBe(0);
    const fresh = await build('--rack-after', 'rack-2.yaml');
    expect([fresh.code, fresh.error.includes('file/stale'), marked()]).toEqual([0, false, []]);
    expect(readFileSync(path.join(folder, 'rack-2.yaml'), 'utf8')).toContain('job.yaml');
    // Built from routes found for this very job: both records name the same job and seed.
    const record = (name: string): { jobHash: string; seed: number } =>
      JSON.parse(readFileSync(path.join(folder, 'exports/hillclimb-four', name), 'utf8')) as {
        jobHash: string;
        seed: number;
      };
    const [manifest, routes] = [record('manifest.json'), record('routes.json')];
    expect(manifest.jobHash).toMatch(/^[0-9a-f]{64}$/);
    expect([manifest.jobHash, manifest.seed]).toEqual([routes.jobHash, 3]);
    expect(routes.seed).toBe(3);
    const tube = (files: readonly Lying[]): string | undefined =>
      files.find(({ path }) => path === 'primary-P4.step')?.sha256;
    expect(tube(lying(folder))).not.toBe(tube(before));
    expect((await build()).out).toContain('nothing has changed');
  });
}, 240_000);
