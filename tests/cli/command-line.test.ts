import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
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

  it('a folder given as the job is told in words, with exit code 2', async () => {
    await inFolder(async (folder) => {
      mkdirSync(path.join(folder, 'job.yaml'));
      for (const verb of ['check', 'build', 'route']) {
        const { code, error } = await command(folder, verb, 'job.yaml');
        expect(code, verb).toBe(2);
        expect(error).toContain('[build/no-file]');
        expect(error).toContain('job.yaml/job.yaml');
      }
    });
  });

  it('the new job names a schema that is there for the editor, as the program is run', async () => {
    await inFolder((folder) => {
      execFileSync(process.execPath, [path.resolve('dist/tackwright.js'), 'new', 'trial'], { cwd: folder });
      const text = readFileSync(path.join(folder, 'trial/job.yaml'), 'utf8');
      const schema = /\$schema=(\S+)/.exec(text)?.[1] ?? 'none named';
      expect(existsSync(path.resolve(folder, 'trial', schema)), schema).toBe(true);
    });
  });

  it('a record that has no folder to go to is refused before the search', async () => {
    const job = path.resolve('fixtures/hillclimb-four/job.yaml');
    const { code, error } = await command('.', 'route', job, '--record', 'no-such-folder/record.json');
    expect(code).toBe(3);
    expect(error).toContain('[file/cannot-write]');
    expect(error).toContain('no-such-folder for --record');
  });

  it('a row changed by hand in the routes: the end that the message gives is where it leads', async () => {
    await inFolder(async (folder) => {
      cpSync(path.resolve('fixtures/hillclimb-four'), folder, { recursive: true });
      const routes = path.join(folder, 'routes.yaml');
      const changed = readFileSync(routes, 'utf8').replace('clock: 158.5 }', 'clock: 158 }');
      writeFileSync(routes, changed);
      const { error } = await command(folder, 'check', 'job.yaml');
      expect(error).toContain('the rows of P1 end');
      const end = /write the end where they lead: (at: \[[^\]]+\])/.exec(error)?.[1] ?? 'none given';
      writeFileSync(routes, changed.replace(/(end: \{ )at: \[[^\]]+\]/, `$1${end}`));
      expect((await command(folder, 'check', 'job.yaml')).error).not.toContain('the rows of P1 end');
    });
  });

  it('a new job is not routed before it gives a length and its rack: both are named, and the lines do', async () => {
    await inFolder(async (folder) => {
      await command(folder, 'new', 'trial');
      const { code, error } = await command(folder, 'route', 'trial/job.yaml');
      expect(code).toBe(2);
      expect(error).toContain('the job does not give length, rack');
      const lines = [...error.matchAll(/`((?:length|rack): [^`]+)`/g)].map((match) => match[1]);
      expect(lines).toHaveLength(2);
      const job = path.join(folder, 'trial/job.yaml');
      writeFileSync(job, `${readFileSync(job, 'utf8')}${lines.join('\n')}\n`);
      expect((await command(folder, 'check', 'trial/job.yaml')).error).not.toMatch(/^error/m);
    });
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
