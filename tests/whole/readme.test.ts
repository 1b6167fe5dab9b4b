import { cpSync, existsSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { command, inFolder } from '../support/command.js';

const root = path.resolve(import.meta.dirname, '../..');
const readme = readFileSync(path.join(root, 'README.md'), 'utf8');
const blocks = [...readme.matchAll(/```sh\n([\s\S]*?)```/g)].map((match) => match[1] ?? '');
const commands = blocks
  .flatMap((block) => block.split('\n'))
  .map((line) => line.replace(/#.*/, '').trim())
  .filter((line) => line.startsWith('npx tackwright '));

describe('the README', () => {
  it('every command in it works as printed, in order', async () => {
    expect(commands.length).toBeGreaterThanOrEqual(6);
    await inFolder(async (folder) => {
      for (const kept of ['fixtures', 'scripts'])
        cpSync(path.join(root, kept), path.join(folder, kept), { recursive: true });
      // From nothing: no route is found already.
      rmSync(path.join(folder, 'fixtures/hillclimb-four/routes.yaml'));
      for (const line of commands) {
        const args = line.split(/\s+/).slice(2);
        const { code, error } = await command(folder, ...args);
        expect(error, line).not.toMatch(/^error/m);
        expect(code, line).toBe(0);
      }
      // Found again, the routes are byte for byte those that are kept, and nothing was moved out of the way.
      const kept = 'fixtures/hillclimb-four/routes.yaml';
      expect(readFileSync(path.join(folder, kept), 'utf8')).toBe(readFileSync(path.join(root, kept), 'utf8'));
      expect(existsSync(path.join(folder, 'fixtures/hillclimb-four/routes.previous.yaml'))).toBe(false);
    });
  }, 300_000);

  it('names the two npm commands that package.json has', () => {
    const { scripts } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as {
      scripts: Record<string, string>;
    };
    expect(readme).toContain('npm ci && npm run demo');
    expect(readme).toContain('npm ci && npm test');
    expect(Object.keys(scripts)).toEqual(
      expect.arrayContaining(['demo', 'test', 'check', 'bench', 'prepare']),
    );
  });

  it('every picture and file it links to is there', () => {
    const links = [...readme.matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map((match) => match[1] ?? '');
    expect(links.length).toBeGreaterThanOrEqual(6);
    for (const link of links) expect(existsSync(path.join(root, link)), link).toBe(true);
  });
});
