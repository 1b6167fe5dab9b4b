import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadScript } from '../../src/build/load-script.js';
import { optionName } from '../../src/build/dimension.js';
import { command, inFolder } from '../support/command.js';

const root = path.resolve(import.meta.dirname, '../..');
const scripts = readdirSync(path.join(root, 'scripts')).filter((file) => file.endsWith('.ts'));
const at = (file: string): string => path.join(root, 'scripts', file);

describe('parametric scripts', () => {
  it.each(scripts)(
    '%s reads like a drawing: 60 lines or fewer, every dimension with unit and meaning in --help',
    async (file) => {
      expect(readFileSync(at(file), 'utf8').split('\n').length).toBeLessThanOrEqual(60);
      const { code, out } = await command('.', 'make', at(file), '--help');
      expect(code).toBe(0);
      const script = await loadScript(at(file));
      expect(Object.keys(script.dimensions).length).toBeGreaterThan(5);
      for (const [name, { about, kind, value }] of Object.entries(script.dimensions)) {
        const unit = { length: ' mm', angle: ' deg' }[kind as 'length'] ?? '';
        const shown = typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value);
        expect(about.length).toBeGreaterThan(8);
        // Help is folded to the width of the page.
        const help = out.replace(/\s+/g, ' ');
        expect(help).toContain(`--${optionName(name)} <`);
        expect(help).toContain(`${about} (${shown}${unit}`);
      }
    },
  );

  it.each(scripts)('%s makes its part as it stands, every measure passing', async (file) => {
    await inFolder(async (folder) => {
      const { code, out, error } = await command(folder, 'make', at(file));
      expect(error).toBe('');
      expect(code).toBe(0);
      const [, passed, all] = /(\d+) of (\d+) measures pass/.exec(out) ?? [];
      expect(Number(all)).toBeGreaterThan(20);
      expect(passed).toBe(all);
    });
  });

  it('--pitch 94 and --pitch "3.7 in" move the ports; the size is in the name of the cut file', async () => {
    const named = async (...pitch: string[]): Promise<string> =>
      inFolder(async (folder) => {
        const ran = await command(folder, 'make', at('port-flange.ts'), ...pitch, '--formats', 'dxf');
        expect(ran.code).toBe(0);
        return (
          readdirSync(path.join(folder, 'exports/port-flange')).find((file) => file.endsWith('.dxf')) ?? ''
        );
      });
    const width = (name: string): number => Number(/_(\d+)x/.exec(name)?.[1]);
    const plain = width(await named());
    expect(width(await named('--pitch', '94')) - plain).toBe(6);
    // 3.7 in = 93.98 mm
    expect(width(await named('--pitch', '3.7 in')) - plain).toBe(6);
  });

  it.each([
    [['--pitch', '5'], 'build/bad-dimension', /under the least, 20/],
    [['--pitch', 'wide'], 'build/bad-dimension', /wide/],
    [['--ports', '2.5'], 'build/bad-dimension', /whole number/],
    [['--cut-by', 'axe'], 'build/bad-dimension', /plasma/],
    [['--pitch', '40'], 'job/', /pitch|overlap|stand/],
  ])('%j is refused with exit code 2', async (given, code, says) => {
    await inFolder(async (folder) => {
      const ran = await command(folder, 'make', at('port-flange.ts'), ...given);
      expect(ran.code).toBe(2);
      expect(ran.error).toContain(`[${code}`);
      expect(ran.error).toMatch(says);
      expect(readdirSync(folder)).toEqual([]);
    });
  });

  it("a user's own script outside the repository works, and its mistakes are told with their line", async () => {
    await inFolder(async (folder) => {
      mkdirSync(path.join(folder, 'mine'));
      const file = path.join(folder, 'mine/pair.ts');
      const good = `import { portFlange, script, length } from 'tackwright';
export default script({
  about: 'Two round ports.',
  dimensions: { pitch: length(100, 'centre to centre', { least: 60 }) },
  draw: (d) => portFlange({
    ports: { shape: { circle: { diameter: 34 } }, row: { count: 2, pitch: d.pitch } },
    studs: { thread: 'M8', beside_each_port: [[-30, 20], [30, -20]] },
    flange: { thickness: 8, web: { height: 26 }, cut_by: 'laser', least_web: 5 },
  }),
});
`;
      writeFileSync(file, good);
      const ran = await command(folder, 'make', 'mine/pair.ts', '--pitch', '110', '--formats', 'dxf');
      expect(ran).toMatchObject({ code: 0, error: '' });
      expect(readdirSync(path.join(folder, 'exports/pair')).sort()[0]).toMatch(/^flange_.*\.dxf$/);

      writeFileSync(file, good.replace('portFlange({', 'portFlange({ {'));
      const broken = await command(folder, 'make', 'mine/pair.ts');
      expect(broken.code).toBe(2);
      expect(broken.error).toMatch(/pair\.ts:5:\d+/);

      writeFileSync(
        file,
        good.replace('portFlange({', "(() => { throw new Error('no such thing'); })() ?? portFlange({"),
      );
      const thrown = await command(folder, 'make', 'mine/pair.ts');
      expect(thrown.code).toBe(2);
      expect(thrown.error).toContain('no such thing');
      expect(thrown.error).not.toMatch(/\n\s+at /);

      writeFileSync(file, 'export default 7;\n');
      const other = await command(folder, 'make', 'mine/pair.ts');
      expect(other.code).toBe(2);
      expect(other.error).toContain('build/bad-script');
    });
  });
});
