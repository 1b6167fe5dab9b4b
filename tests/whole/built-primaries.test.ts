import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { command, inFolder } from '../support/command.js';
import { far, march, unit, type Row, type V } from '../support/plain-march.js';
import { caseFolder, caseText } from '../support/routing-cases.js';

/*
 * Primaries that stand already are kept, and only what is missing is found: judged by marches of other code.
 */
interface Start {
  readonly at: V;
  readonly direction: V;
  readonly clock_reference: V;
}
interface Primary {
  readonly id: string;
  readonly slot: string;
  readonly built?: { readonly length: number; readonly start: Start; readonly rows: readonly Row[] };
  readonly start: Start;
  readonly rows: readonly Row[];
  readonly end: { readonly at: V; readonly direction: V };
  readonly length: number;
}
interface Written {
  readonly length: number;
  readonly collector: { readonly at: V };
  readonly primaries: readonly Primary[];
}

const marched = ({ start, rows }: Pick<Primary, 'start' | 'rows'>, step = 0.5) =>
  march(start.at, unit(start.direction), start.clock_reference, rows, step);

let routed: string | undefined;

const inCase = (
  work: (folder: string, write: (from: string, to: string) => void) => Promise<void>,
): Promise<void> =>
  inFolder(async (folder) => {
    copyFileSync(`${caseFolder('flat4')}/rack.yaml`, path.join(folder, 'rack.yaml'));
    const write = (from: string, to: string): void => {
      const text = caseText('flat4');
      expect(text).toContain(from);
      writeFileSync(path.join(folder, 'job.yaml'), text.replace(from, to));
    };
    write('primaries: {', 'primaries: {');
    // Routed once for all these tests.
    const frozen = path.join(folder, 'routes.yaml');
    if (routed !== undefined) writeFileSync(frozen, routed);
    else expect((await command(folder, 'route', 'job.yaml', '--effort', 'quick')).code).toBe(0);
    routed ??= readFileSync(frozen, 'utf8');
    await work(folder, write);
  });

const read = (folder: string): Written =>
  parse(readFileSync(path.join(folder, 'routes.yaml'), 'utf8')) as Written;
const one = (record: Written, id: string): Primary => {
  const found = record.primaries.find((primary) => primary.id === id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

describe('primaries that stand already', () => {
  it('one whole, one up to a weld and measured off its place: the tail meets its slot, length and clearance kept', async () => {
    await inCase(async (folder, write) => {
      const before = read(folder);
      const p2 = one(before, 'P2');
      // Built as far as 10 mm past the first bend, where the end came out 1.5 mm and about half a degree off.
      const [stub, bend] = p2.rows as [{ straight: number }, { clr: number; angle: number }];
      const station = stub.straight + (bend.clr * bend.angle * Math.PI) / 180 + 10;
      const stood = marched({ start: p2.start, rows: [...p2.rows.slice(0, 2), { straight: 10 }] });
      const at: V = [stood.end.at[0] + 1, stood.end.at[1] - 1, stood.end.at[2] + 0.5];
      const direction = unit([stood.end.flow[0] + 0.008, stood.end.flow[1], stood.end.flow[2] - 0.004]);
      const end = `{ at: [${at.join(', ')}], direction: [${direction.join(', ')}] }`;
      write('primaries: {', `primaries: {built: {P1: whole, P2: {up_to: ${station}, end: ${end}}}, `);
      // The frozen record has no built part yet: told, not used in silence.
      const early = await command(folder, 'check', 'job.yaml');
      expect([early.code, early.error.includes('route/off-job')]).toEqual([2, true]);
      const again = await command(folder, 'route', 'job.yaml', '--effort', 'quick', '--seed', '4');
      expect(again.code).toBe(0);
      expect(again.out).toContain('P1 as before');
      const after = read(folder);
      expect(one(after, 'P1').rows).toEqual(one(before, 'P1').rows);
      expect(after.length).toBeCloseTo(before.length, 6);
      const tail = one(after, 'P2');
      expect(far(tail.start.at, at)).toBeLessThan(1e-6);
      expect(far(tail.start.direction, direction)).toBeLessThan(1e-9);
      expect(tail.built?.length).toBeCloseTo(station, 9);
      const line = marched(tail);
      expect(far(line.end.at, tail.end.at)).toBeLessThan(1e-6);
      // The slots stand where they stood: another primary of the first record ended there.
      const slot = before.primaries.find((primary) => primary.slot === tail.slot);
      expect(far(line.end.at, slot?.end.at ?? [0, 0, 0])).toBeLessThan(1e-6);
      expect(line.length + station).toBeCloseTo(after.length, 4);
      const built = marched({ start: tail.built?.start ?? tail.start, rows: tail.built?.rows ?? [] });
      expect(built.length).toBeCloseTo(station, 6);
      // Nobody comes nearer to what stands than is asked between tubes, nor to the tail.
      const job = parse(caseText('flat4')) as {
        tube: { od: number };
        clear: { tube_to_tube: number; near_slots: number };
      };
      const least = job.tube.od + Math.min(job.clear.tube_to_tube, job.clear.near_slots);
      for (const id of ['P3', 'P4']) {
        const other = marched(one(after, id));
        const last = other.spans.length - 1;
        for (const a of [
          ...built.stations,
          ...line.stations.filter(({ row }) => row < line.spans.length - 1),
        ])
          for (const b of other.stations)
            if (b.row < last && far(a.p, b.p) < least - 0.01)
              throw new Error(`${id} at ${b.s} is ${far(a.p, b.p)} from P2`);
      }
      // What remains is cut: fewer pieces of P2 than before, the joint no flange weld.
      const sound = await command(folder, 'check', 'job.yaml', '--json');
      expect(
        (JSON.parse(sound.out) as { problems: { severity: string }[] }).problems.filter(
          ({ severity }) => severity === 'error',
        ),
      ).toEqual([]);
      const cut = await command(folder, 'build', 'job.yaml', '--only', 'cut-list');
      expect(cut.code).toBe(0);
      const list = JSON.parse(readFileSync(path.join(folder, 'exports/flat4/cut-list.json'), 'utf8')) as {
        welds: { primary: string; at: number; kind: string }[];
      };
      // Stations count from the flange, as `up_to` does, in the record and in the table; 0 is the flange's alone.
      const welds = list.welds.filter(({ primary }) => primary === 'P2');
      expect(welds[0]?.at).toBeCloseTo(station, 6);
      expect(welds[0]?.kind).toBe('straight');
      for (const { at: where } of welds.slice(1)) {
        expect(where).toBeGreaterThan(station + 1);
        expect(where).toBeLessThan(after.length);
      }
      const table = readFileSync(path.join(folder, 'exports/flat4/weld-table.csv'), 'utf8').split('\r\n');
      const written = table
        .filter((row) => row.split(',')[1] === 'P2')
        .map((row) => Number(row.split(',')[2]));
      expect(written.map((where) => where.toFixed(2))).toEqual(
        welds.map(({ at: where }) => where.toFixed(2)),
      );
      expect(list.welds.filter(({ kind }) => kind === 'flange').map(({ primary }) => primary)).toEqual([
        'P1',
        'P3',
        'P4',
      ]);

      // The collector has to go elsewhere: P1 alone stands up to the same place, all tails are new.
      const moved = await command(
        folder,
        'route',
        'job.yaml',
        '--effort',
        'quick',
        '--set',
        'primaries.built={ P2: { up_to: ' + station + ' } }',
        '--set',
        `collector.at={ right: ${before.collector.at[0] + 8}, up: ${before.collector.at[1] - 6}, out: ${before.collector.at[2]} }`,
      );
      expect(moved.code).toBe(0);
      expect(moved.out).toMatch(/Against the routes of before \(\d+ -> \d+ welds still to make\):/);
      const shifted = read(folder);
      expect(far(shifted.collector.at, before.collector.at)).toBeCloseTo(10, 6);
      // The measured end stays the one that was measured.
      expect(far(one(shifted, 'P2').start.at, at)).toBeLessThan(1e-6);
      expect(existsSync(path.join(folder, 'routes.previous.yaml'))).toBe(true);
    });
  });

  it('--only P3: the others stay to the last digit', async () => {
    await inCase(async (folder) => {
      const before = read(folder);
      const ran = await command(
        folder,
        'route',
        'job.yaml',
        '--effort',
        'quick',
        '--only',
        'P3',
        '--seed',
        '5',
      );
      expect(ran.code).toBe(0);
      const after = read(folder);
      for (const id of ['P1', 'P2', 'P4']) expect(one(after, id).rows).toEqual(one(before, id).rows);
      expect(one(after, 'P3').slot).toBe(one(before, 'P3').slot);
      expect(one(after, 'P3').length).toBeCloseTo(before.length, 6);
    });
  });

  it.each([
    ['P2: {up_to: 5000}', [], 'route/built-off-tube'],
    ['P1: whole, P2: whole, P3: whole, P4: whole', [], 'route/nothing-open'],
    ['P9: whole', [], 'job/no-such-primary'],
    ['P1: {up_to: 0}', [], 'job/'],
    ['', ['--only', 'P7'], 'build/unknown-choice'],
  ])('built: { %s } %j is refused with %s, and the record stays', async (built, more, code) => {
    await inCase(async (folder, write) => {
      const text = readFileSync(path.join(folder, 'routes.yaml'), 'utf8');
      write('primaries: {', `primaries: {built: {${built}}, `);
      const ran = await command(folder, 'route', 'job.yaml', '--effort', 'quick', ...more);
      expect(ran.code).toBe(2);
      expect(ran.error).toContain(code);
      expect(readFileSync(path.join(folder, 'routes.yaml'), 'utf8')).toBe(text);
    });
  });

  it('with nothing frozen beside the job it is refused: nobody knows where the tube runs', async () => {
    await inFolder(async (folder) => {
      copyFileSync(`${caseFolder('flat4')}/rack.yaml`, path.join(folder, 'rack.yaml'));
      writeFileSync(
        path.join(folder, 'job.yaml'),
        caseText('flat4').replace('primaries: {', 'primaries: {built: {P1: whole}, '),
      );
      const { code, error } = await command(folder, 'route', 'job.yaml', '--effort', 'quick');
      expect([code, error.includes('route/nothing-frozen')]).toEqual([2, true]);
      expect(existsSync(path.join(folder, 'routes.yaml'))).toBe(false);
    });
  });
});
