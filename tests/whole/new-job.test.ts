import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';

/* As a newcomer goes: a new job as it is, then what is offered in it for tubes uncommented, step by step. */
describe.each(['mm', 'in'] as const)('a first job in %s', (units) => {
  it('is checked, and with its offered lines uncommented checked, routed and cut', async () => {
    await inFolder(async (folder) => {
      const step = (...args: string[]) => command(folder, ...args);
      expect((await step('new', 'mine', '--cylinders', '4', '--units', units)).code).toBe(0);
      const file = path.join(folder, 'mine/job.yaml');
      const text = readFileSync(file, 'utf8');
      const bare = await step('check', 'mine/job.yaml');
      expect([bare.code, bare.error]).toEqual([0, '']);

      // Before that, it is said which lines are missing.
      expect((await step('route', 'mine/job.yaml')).error).toContain('the job does not give length, rack');
      writeFileSync(file, text.replace(/^#(?=[a-z]| {2})/gm, ''));
      const open = await step('check', 'mine/job.yaml');
      expect(open.code).toBe(0);
      expect(open.error).toContain('run `tackwright route mine/job.yaml`, then build again');
      const routed = await step('route', 'mine/job.yaml', '--effort', 'quick');
      expect([routed.code, routed.error]).toEqual([0, '']);
      const built = await step('build', 'mine/job.yaml', '--only', 'flange,cut-list', '--formats', 'dxf');
      expect(built.code).toBe(0);
      const list = readFileSync(path.join(folder, 'exports/mine/cut-list.csv'), 'utf8');
      for (const primary of ['P1', 'P2', 'P3', 'P4']) expect(list).toContain(primary);
    });
  }, 120_000);
});

it('a route that cannot be cut says so at once, at its row, in the words of the build', async () => {
  await inFolder(async (folder) => {
    await command(folder, 'new', 'mine', '--cylinders', '4', '--units', 'in');
    const [job, rack] = ['mine/job.yaml', 'mine/rack.yaml'].map((name) => path.join(folder, name)) as [string, string]; // prettier-ignore
    writeFileSync(job, readFileSync(job, 'utf8').replace(/^#(?=[a-z]| {2})/gm, ''));
    // With shorter legs the only weld between two bends would have to stand where a socket goes.
    writeFileSync(rack, readFileSync(rack, 'utf8').replace('legs: [5, 5]', 'legs: [4, 4]'));
    const routed = await command(folder, 'route', 'mine/job.yaml', '--effort', 'quick');
    expect(routed.code).toBe(0);
    const [, place] = /^warning {2}(mine\/routes\.yaml:\d+:\d+ {2}primaries\.1\.rows\.2) {2}\[pieces\/no-weld-spot\]$/m.exec(routed.error) ?? []; // prettier-ignore
    expect(routed.error).toContain('this route cannot be cut as it is');
    const built = await command(folder, 'build', 'mine/job.yaml', '--only', 'cut-list');
    expect(built.code).toBe(3);
    expect(built.error).toContain(`error  ${place}  [pieces/no-weld-spot]`);
    // Written elsewhere, it is that file which is named, and no line of the one beside the job.
    const apart = await command(folder, 'route', 'mine/job.yaml', '--effort', 'quick', '--record', 'apart.json'); // prettier-ignore
    expect(apart.error).toMatch(/^warning {2}\S*apart\.json {2}\[pieces\/no-weld-spot\]$/m);
  });
}, 120_000);

it.each([2, 3, 5, 6, 8])('with %i cylinders the offered lines read without an error', async (cylinders) => {
  await inFolder(async (folder) => {
    await command(folder, 'new', 'mine', '--cylinders', String(cylinders));
    const file = path.join(folder, 'mine/job.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace(/^#(?=[a-z]| {2})/gm, ''));
    const { code, error } = await command(folder, 'check', 'mine/job.yaml');
    expect([code, error.includes('route/not-routed')]).toEqual([0, true]);
  });
});
