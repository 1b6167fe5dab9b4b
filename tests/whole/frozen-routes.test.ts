import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { command, inFolder } from '../support/command.js';
import { judge, type JudgedRecord } from '../support/judge.js';
import { march, toBody, unit, type Body, type V } from '../support/plain-march.js';
import { caseFolder, caseText } from '../support/routing-cases.js';

/*
 * Routes frozen beside a job are measured anew by every check. What it tells is held against marches and
 * distances of other code (tests/support), points every half millimetre.
 */
const inCase = (name: string, work: (folder: string) => Promise<void>): Promise<void> =>
  inFolder(async (folder) => {
    writeFileSync(path.join(folder, 'job.yaml'), caseText(name));
    copyFileSync(`${caseFolder(name)}/rack.yaml`, path.join(folder, 'rack.yaml'));
    await work(folder);
  });

interface Told {
  readonly routes: readonly { id: string; length: number; nearest: { to: string; spare: number } }[];
  readonly problems: readonly {
    code: string;
    severity: string;
    what: string;
    place: { file: string; line: number; path: string };
  }[];
}

const told = async (folder: string, ...more: string[]): Promise<Told & { code: number }> => {
  const { code, out } = await command(folder, 'check', 'job.yaml', '--json', ...more);
  return { ...(JSON.parse(out) as Told), code };
};

describe('frozen routes', () => {
  it('as found: the table of `check` has the clearance that brute force finds; a changed job is told', async () => {
    await inCase('v2', async (folder) => {
      const routed = await command(folder, 'route', 'job.yaml', '--effort', 'quick');
      expect(routed.code).toBe(0);
      const frozen = path.join(folder, 'routes.yaml');
      const record = parse(readFileSync(frozen, 'utf8')) as JudgedRecord;
      // The table: a line a primary, welds that add up, and the slowest of the paces named below.
      const cells = routed.out.split('\n').map((line) => line.trim().split(/ {2,}/));
      const lines = cells.filter(([id]) => /^P\d$/.test(id ?? ''));
      expect(lines.map(([id, slot]) => [id, slot])).toEqual(
        record.primaries.map(({ id, slot }) => [id, slot]),
      );
      const all = Number(/(\d+) welds/.exec(routed.out)?.[1]);
      expect(lines.reduce((sum, row) => sum + Number(row[3]), 0)).toBe(all);
      const slowest = Math.max(...lines.map((row) => Number(row[5])));
      expect(routed.out).toContain(`was still ${slowest} mm at the shortest tried`);
      const { spare } = judge(caseFolder('v2'), record);
      const sound = await told(folder);
      expect(sound.code).toBe(0);
      expect(sound.problems.filter(({ code }) => code.startsWith('route/'))).toEqual([]);
      expect(Math.min(...sound.routes.map(({ nearest }) => nearest.spare))).toBeCloseTo(spare, 1);

      // A box beside P1: nearer than asked by what other code measures.
      const job = parse(caseText('v2')) as {
        tube: { od: number };
        ports: { each: { at: V; direction: V }[] };
      };
      const port = job.ports.each[0] as { at: V; direction: V };
      const rows = record.primaries[0]?.rows ?? [];
      const line = march(port.at, unit(port.direction), [0, 1, 0], rows, 0.5);
      const middle = line.stations[line.stations.length >> 1]?.p as V;
      const box: Body = {
        box: {
          from: [middle[0] - 5, middle[1] - 90, middle[2] - 5],
          to: [middle[0] + 5, middle[1] - job.tube.od / 2 - 6, middle[2] + 5],
        },
      } as Body;
      const least = Math.min(...line.stations.map(({ p }) => toBody(box, p))) - job.tube.od / 2;
      expect(least).toBeGreaterThan(0);
      expect(least).toBeLessThan(6.1);
      const text = caseText('v2').replace(
        'keep_outs:\n',
        `keep_outs:\n- {name: new bracket, clear: 8, ${JSON.stringify(box).slice(1)}\n`,
      );
      writeFileSync(path.join(folder, 'job.yaml'), text);
      const off = await told(folder);
      expect(off.code).toBe(2);
      const near = off.problems.find(({ code }) => code === 'route/too-near');
      expect(near?.severity).toBe('error');
      const [, gap, asked] =
        /^P1 .* passes new bracket at ([\d.]+) mm, where ([\d.]+) is asked/.exec(near?.what ?? '') ?? [];
      expect(Number(gap)).toBeCloseTo(least, 1);
      expect(Number(asked)).toBe(8);
      expect(near?.place.file).toBe('routes.yaml');
      const at = readFileSync(frozen, 'utf8').split('\n')[(near?.place.line ?? 0) - 1];
      expect(at).toContain('id: P1');
      const built = await command(folder, 'build', 'job.yaml', '--only', 'primary');
      expect([built.code, built.error.includes('route/too-near')]).toEqual([2, true]);
      // The fix that is told holds.
      const fixed = await told(folder, '--set', `keep_outs.0.clear=${Math.floor(least * 10) / 10}`);
      expect(fixed.problems.filter(({ code }) => code.startsWith('route/'))).toEqual([]);
    });
  });

  it('a row below a limit of the job is told with its primary and row', async () => {
    await inCase('v2', async (folder) => {
      expect((await command(folder, 'route', 'job.yaml', '--effort', 'quick')).code).toBe(0);
      const record = parse(readFileSync(path.join(folder, 'routes.yaml'), 'utf8')) as JudgedRecord;
      const first = record.primaries.map(({ rows }) => (rows[0] as { straight: number }).straight);
      const stub = Math.min(...first) + 1;
      const { code, problems } = await told(folder, '--set', `primaries.stub=${stub}`);
      expect(code).toBe(2);
      const broken = problems.filter((problem) => problem.code === 'route/breaks-limit');
      expect(broken).toHaveLength(first.filter((straight) => straight < stub).length);
      expect(broken[0]?.what).toMatch(
        /^P[12]: row 1 is a straight of [\d.]+ mm \(primaries\.stub: [\d.]+\)$/,
      );
    });
  });

  it('two by hand and two frozen are built together; by hand alone, it is said that the frozen ones are not', async () => {
    await inCase('flat4', async (folder) => {
      expect((await command(folder, 'route', 'job.yaml', '--effort', 'quick')).code).toBe(0);
      const frozen = path.join(folder, 'routes.yaml');
      const record = parse(readFileSync(frozen, 'utf8')) as JudgedRecord;
      const write = (ids: readonly string[]): void => {
        const rows = Object.fromEntries(
          record.primaries.filter(({ id }) => ids.includes(id)).map(({ id, rows: own }) => [id, own]),
        );
        const text = caseText('flat4').replace(
          'primaries: {',
          `primaries: {by_hand: ${JSON.stringify(rows)}, `,
        );
        writeFileSync(path.join(folder, 'job.yaml'), text);
      };
      write(['P1', 'P3']);
      const both = await told(folder);
      expect(both.routes.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3', 'P4']);
      expect(both.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      // The same rows, one changed: the record was made round another tube.
      const text = readFileSync(path.join(folder, 'job.yaml'), 'utf8');
      const straight = (record.primaries[0]?.rows[0] as { straight: number }).straight;
      writeFileSync(path.join(folder, 'job.yaml'), text.replace(String(straight), String(straight + 1)));
      const off = await told(folder);
      expect(off.problems.find(({ code }) => code === 'route/off-job')?.what).toContain('P1 by hand');

      write(['P1', 'P2', 'P3', 'P4']);
      const again = await command(folder, 'route', 'job.yaml', '--effort', 'quick', '--seed', '2');
      expect(again.error).toContain('route/by-hand-stays');
      expect((await told(folder)).routes).toHaveLength(4);
    });
  });

  it('rows by hand that run into something: a warning, as they are the word of whoever gave them', async () => {
    await inCase('flat4', async (folder) => {
      const rows = { P1: [{ straight: 180 }] };
      const text = caseText('flat4').replace(
        'primaries: {',
        `primaries: {by_hand: ${JSON.stringify(rows)}, `,
      );
      const port = (parse(text) as { ports: { each: { at: V; direction: V }[] } }).ports.each[0];
      if (!port) throw new Error('flat4 has ports');
      const at = port.at.map((x, i) => x + 120 * (port.direction[i] ?? 0));
      const post = `- {name: post, clear: 5, box: {from: ${JSON.stringify(at.map((x) => x - 10))}, to: ${JSON.stringify(at.map((x) => x + 10))}}}\n`;
      writeFileSync(path.join(folder, 'job.yaml'), text.replace('keep_outs:\n', `keep_outs:\n${post}`));
      const { problems } = await told(folder);
      const near = problems.find(({ code, what }) => code === 'route/too-near' && what.includes('post'));
      expect(near?.severity).toBe('warning');
      // The axis passes through the middle of the box: 10 mm deep, and the tube's radius.
      const od = (parse(text) as { tube: { od: number } }).tube.od;
      const into = Number(/runs ([\d.]+) mm into post/.exec(near?.what ?? '')?.[1]);
      expect(into).toBeCloseTo(10 + od / 2, 1);
    });
  });
});
