import { readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';

it('build/nothing-to-make: a job without any part, and --only for a part that it does not ask for', async () => {
  await inFolder(async (folder) => {
    writeFileSync(path.join(folder, 'bare.yaml'), 'job: bare\nports: { row: { count: 2, pitch: 90 } }\n');
    const bare = await command(folder, 'build', 'bare.yaml');
    expect(bare.code).toBe(2);
    expect(bare.error).toContain('[build/nothing-to-make]');
    const only = await command(folder, 'build', 'bare.yaml', '--only', 'merge-plate');
    expect(only.error).toContain('merge-plate');
    expect(readdirSync(folder)).toEqual(['bare.yaml']);
  });
});

it('build/unknown-choice: an empty list of parts', async () => {
  const { code, error } = await command('.', 'build', 'fixtures/hillclimb-four/job.yaml', '--only', ',');
  expect(code).toBe(2);
  expect(error).toContain('[build/unknown-choice]');
});

it('build/bad-dimension: a job name that cannot be a folder, and nine cylinders', async () => {
  await inFolder(async (folder) => {
    for (const args of [['../x'], ['ok', '--cylinders', '9'], ['ok', '--cylinders', 'two']]) {
      const { code, error } = await command(folder, 'new', ...args);
      expect(code).toBe(2);
      expect(error).toContain('[build/bad-dimension]');
    }
    expect(readdirSync(folder)).toEqual([]);
  });
});

it('--set with a misspelt path names the right one and points at the command line', async () => {
  const job = path.resolve('fixtures/hillclimb-four/job.yaml');
  const { code, error } = await command('.', 'check', job, '--set', 'ports.row.pich=94');
  expect(code).toBe(2);
  expect(error).toContain('--set ports.row.pich');
  expect(error).toContain('pitch');
});
