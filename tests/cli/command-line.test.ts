import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { pages } from '../../src/base/codes/index.js';
import { command, inFolder } from '../support/command.js';

describe('the command line', () => {
  it('a command that does not exist ends with exit code 2 and the nearest one', async () => {
    const { code, error } = await command('.', 'biuld');
    expect(code).toBe(2);
    expect(error).toContain('Did you mean build?');
  });

  it('--help and --version end with exit code 0', async () => {
    expect((await command('.', '--help')).code).toBe(0);
    const { code, out } = await command('.', '--version');
    expect(code).toBe(0);
    expect(out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  it('a job file that is not there is told in words, with exit code 2', async () => {
    const { code, error } = await command('.', 'build', 'no-such.yaml');
    expect(code).toBe(2);
    expect(error).toContain('[build/no-file]');
    expect(error).not.toMatch(/\n\s+at /);
  });

  it.each([
    ['--only', 'flnage', 'flange'],
    ['--formats', 'dfx', 'dxf'],
  ])('%s %s names the nearest choice and writes nothing', async (option, given, meant) => {
    await inFolder(async (folder) => {
      const job = path.resolve('fixtures/hillclimb-four/job.yaml');
      const { code, error } = await command(folder, 'build', job, option, given);
      expect(code).toBe(2);
      expect(error).toContain(`Did you mean "${meant}"?`);
      expect(readdirSync(folder)).toEqual([]);
    });
  });

  it('explain lists every code and prints each one its page', async () => {
    const list = await command('.', 'explain');
    for (const [code, page] of Object.entries(pages)) {
      expect(list.out).toContain(code);
      const told = await command('.', 'explain', code);
      expect(told.code).toBe(0);
      expect(told.out).toContain(page.title);
      expect(told.out).toContain(page.text);
    }
    const near = await command('.', 'explain', 'flange/thin-wb');
    expect(near.code).toBe(2);
    expect(near.error).toContain('flange/thin-web');
  });

  it.each([
    [1, 'mm'],
    [4, 'in'],
    [8, 'mm'],
  ])(
    'new writes a job for %i cylinders in %s that check finds good, and never writes over it',
    async (cylinders, units) => {
      await inFolder(async (folder) => {
        const made = await command(
          folder,
          'new',
          'trial',
          '--cylinders',
          String(cylinders),
          '--units',
          units,
        );
        expect(made).toMatchObject({ code: 0, error: '' });
        const before = readFileSync(path.join(folder, 'trial/job.yaml'), 'utf8');
        const checked = await command(folder, 'check', 'trial/job.yaml', '--json');
        const { ok, parts, problems } = JSON.parse(checked.out) as {
          ok: boolean;
          parts: { family: string }[];
          problems: { severity: string }[];
        };
        expect(problems.filter((problem) => problem.severity === 'error')).toEqual([]);
        expect(ok).toBe(true);
        expect(parts.filter((part) => part.family === 'flange')).toHaveLength(1);
        const again = await command(folder, 'new', 'trial');
        expect(again.code).toBe(2);
        expect(again.error).toContain('[build/exists]');
        expect(readFileSync(path.join(folder, 'trial/job.yaml'), 'utf8')).toBe(before);
      });
    },
  );
});
