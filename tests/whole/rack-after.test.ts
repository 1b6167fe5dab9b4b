import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';

const cost = (folder: string, out: string): number =>
  (
    JSON.parse(readFileSync(path.join(folder, out, 'cut-list.json'), 'utf8')) as {
      totals: { cost: number };
    }
  ).totals.cost;

it('the rack that is left goes into a new file, from which the next header is cheaper; never over an old one', async () => {
  await inFolder(async (folder) => {
    const rack = readFileSync('fixtures/hillclimb-four/rack.yaml', 'utf8');
    const job = readFileSync('fixtures/by-hand-four/job.yaml', 'utf8').replace(
      '../hillclimb-four/rack.yaml',
      'rack.yaml',
    );
    writeFileSync(path.join(folder, 'rack.yaml'), rack);
    writeFileSync(path.join(folder, 'job.yaml'), job);
    const build = (file: string, out: string, ...more: string[]) =>
      command(folder, 'build', file, '--only', 'cut-list', '--out', out, ...more);
    expect((await build('job.yaml', 'one', '--rack-after', 'rack-2.yaml')).code).toBe(0);
    expect(readFileSync(path.join(folder, 'rack.yaml'), 'utf8')).toBe(rack);
    const left = readFileSync(path.join(folder, 'rack-2.yaml'), 'utf8');
    expect(left).toContain('Straights under 26 mm');

    writeFileSync(path.join(folder, 'next.yaml'), job.replace('rack.yaml', 'rack-2.yaml'));
    const next = await build('next.yaml', 'two');
    expect(next.error).not.toContain('[rack/');
    expect(next.code).toBe(0);
    expect(cost(folder, 'two')).toBeLessThan(cost(folder, 'one'));

    // Neither the rack itself nor the file just written is written over, and nothing is built.
    for (const old of ['rack.yaml', 'rack-2.yaml']) {
      const again = await build('job.yaml', 'three', '--rack-after', old);
      expect(again.code).toBe(2);
      expect(again.error).toContain('[build/exists]');
    }
    expect(existsSync(path.join(folder, 'three'))).toBe(false);
    expect(readFileSync(path.join(folder, 'rack-2.yaml'), 'utf8')).toBe(left);

    // No folder for it; and no cut list to reckon it from.
    const lost = await build('job.yaml', 'three', '--rack-after', 'nowhere/rack-3.yaml');
    expect(lost.code).toBe(2);
    expect(lost.error).toContain('[build/no-file]');
    const none = await command(
      folder,
      'build',
      'job.yaml',
      '--only',
      'merge-plate',
      '--formats',
      'dxf',
      '--rack-after',
      'rack-3.yaml',
    );
    expect(none.code).toBe(2);
    expect(none.error).toContain('[build/no-cut-list]');
    expect(existsSync(path.join(folder, 'rack-3.yaml'))).toBe(false);
  });
}, 60_000);
