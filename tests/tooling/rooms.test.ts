import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFolder } from '../support/command.js';

const root = path.resolve(import.meta.dirname, '../..');
const cruiser = path.join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
const rules = path.join(root, 'tests/tooling/rooms.cjs');

/** Runs the rule book over a small source tree and gives the names of the rules broken. */
async function broken(files: Readonly<Record<string, string>>): Promise<string[]> {
  return inFolder((folder) => {
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
      writeFileSync(path.join(folder, name), text);
    }
    writeFileSync(path.join(folder, 'tsconfig.json'), '{"compilerOptions":{"module":"esnext"}}');
    const ran = spawnSync(process.execPath, [cruiser, '--config', rules, '--output-type', 'json', 'src'], {
      cwd: folder,
      encoding: 'utf8',
    });
    const { summary } = JSON.parse(ran.stdout) as { summary: { violations: { rule: { name: string } }[] } };
    return summary.violations.map((violation) => violation.rule.name);
  });
}

describe('one-way imports between the rooms', () => {
  it('the sources as they are break no rule', () => {
    const ran = spawnSync(process.execPath, [cruiser, '--config', rules, 'src'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(ran.stdout + ran.stderr).toContain('no dependency violations found');
    expect(ran.status).toBe(0);
  }, 60_000);

  it.each([
    ['geom', 'job'],
    ['design', 'solid'],
    ['files', 'build'],
    ['base', 'cli'],
    ['read', 'job'],
  ])('a planted import from %s to %s goes red', async (from, to) => {
    const found = await broken({
      [`src/${from}/a.ts`]: `import { b } from '../${to}/b.js';\nexport const a = b;\n`,
      [`src/${to}/b.ts`]: 'export const b = 1;\n',
    });
    expect(found).toEqual([`${from}-imports-only-to-its-right`]);
  });

  it('a planted circle and a planted use of the disk in the core go red', async () => {
    const circle = await broken({
      'src/geom/a.ts': "import { b } from './b.js';\nexport const a = (): number => b();\n",
      'src/geom/b.ts': "import { a } from './a.js';\nexport const b = (): number => a();\n",
    });
    expect(new Set(circle)).toEqual(new Set(['no-circles']));
    const disk = await broken({
      'src/design/a.ts': "import { readFileSync } from 'node:fs';\nexport const a = readFileSync;\n",
    });
    expect(disk).toEqual(['disk-only-at-the-edges']);
  });
});
