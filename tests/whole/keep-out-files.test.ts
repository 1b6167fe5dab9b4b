import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { pages } from '../../src/base/codes/index.js';
import type { RouteRecord } from '../../src/design/route/index.js';
import { openKernel } from '../../src/solid/index.js';
import { command, inFolder } from '../support/command.js';
import { judge } from '../support/judge.js';
import { meshCase } from '../support/mesh-cases.js';
import { binaryStl, boxSkin, textStl, type Corners } from '../support/meshes.js';
import { stepOf } from '../support/step-bodies.js';
import { caseFolder, caseText, routingCase } from '../support/routing-cases.js';

/** A folder with a case's rack and a job file of one's own. */
function lay(
  folder: string,
  name: string,
  text: string,
  files: Record<string, Uint8Array | string> = {},
): void {
  writeFileSync(path.join(folder, 'rack.yaml'), readFileSync(`${caseFolder(name)}/rack.yaml`));
  writeFileSync(path.join(folder, 'job.yaml'), text);
  for (const [file, bytes] of Object.entries(files)) writeFileSync(path.join(folder, file), bytes);
}
const recordIn = (folder: string, file: string): RouteRecord =>
  JSON.parse(readFileSync(path.join(folder, file), 'utf8')) as RouteRecord;

/** Seen in another frame, in metres: right stands for z, up for x, out for y, and all of it moved. */
const elsewhere = (skin: readonly Corners[]): Corners[] =>
  skin.map(
    (corners) => corners.map(([r, u, o]) => [u / 1000 + 1, o / 1000 - 2, r / 1000 + 3]) as unknown as Corners,
  );

describe('a job with keep-outs as files', () => {
  it('100 000 triangles, one mesh of them in metres in a frame of its own: routed, clear of the boxes they were made from', async () => {
    const { text, skins } = meshCase('i4-steer', 5.5);
    expect([...skins.values()].reduce((sum, skin) => sum + skin.length, 0)).toBeGreaterThan(100_000);
    const files = Object.fromEntries(
      [...skins].map(([file, skin]) => [
        file,
        file === 'starter-motor.stl' ? textStl(elsewhere(skin)) : binaryStl(skin),
      ]),
    );
    // Three corners of the starter motor and one of its middle, as found in the scan and on the engine.
    const points = [
      [-75, -400, -35],
      [65, -400, -35],
      [65, -300, 60],
      [-5, -350, 12.5],
    ];
    const matched = points.map(
      ([r = 0, u = 0, o = 0]) =>
        `{in_file: [${u / 1000 + 1}, ${o / 1000 - 2}, ${r / 1000 + 3}], at: [${r}, ${u}, ${o}]}`,
    );
    const placed = text.replace(
      'mesh: starter-motor.stl',
      `mesh: starter-motor.stl\n  file_unit: m\n  matched: [${matched.join(', ')}]`,
    );
    await inFolder(async (folder) => {
      lay(folder, 'i4-steer', placed, files);
      const ran = await command(folder, 'route', 'job.yaml', '--effort', 'quick', '--record', 'r.json');
      expect(ran.error).not.toContain('keep-out/');
      expect(ran.code).toBe(0);
      const verdict = judge(caseFolder('i4-steer'), recordIn(folder, 'r.json'));
      expect(verdict.faults).toEqual([]);
      expect(verdict.welds).toBeLessThanOrEqual(15);
    });
  });

  it('a STEP file: routed, clear of the solids in it; a changed file is noticed by check and build', async () => {
    const kernel = await openKernel();
    const original = caseText('v2');
    const { job } = routingCase('v2');
    const crankcase = job.keepOuts.find(({ name }) => name === 'crankcase')?.shape;
    if (crankcase?.kind !== 'box') throw new Error('no crankcase');
    const text = original.replace(
      /(- name: crankcase\n.*\n) {2}box:\n(?: {4}.*\n)+/,
      '$1  step: crankcase.step\n',
    );
    expect(text).not.toBe(original);
    await inFolder(async (folder) => {
      lay(folder, 'v2', text, { 'crankcase.step': await stepOf(kernel, [{ box: crankcase }]) });
      const tried = await command(folder, 'route', 'job.yaml', '--effort', 'quick', '--record', 'r.json');
      expect(tried.code).toBe(0);
      const verdict = judge(caseFolder('v2'), recordIn(folder, 'r.json'));
      expect(verdict.faults).toEqual([]);

      expect((await command(folder, 'route', 'job.yaml', '--effort', 'quick')).code).toBe(0);
      expect(readFileSync(path.join(folder, 'routes.yaml'), 'utf8')).toMatch(
        /^keep_outs: \{"crankcase.step":"[0-9a-f]{64}"\}$/m,
      );
      const build = (): ReturnType<typeof command> =>
        command(folder, 'build', 'job.yaml', '--only', 'cut-list');
      const first = await build();
      expect(first.error).not.toContain('keep-out/');
      expect(first.code).toBe(0);
      const grown = { from: crankcase.from, to: [90, -150, 50] as const };
      writeFileSync(path.join(folder, 'crankcase.step'), await stepOf(kernel, [{ box: grown }]));
      for (const ran of [await build(), await command(folder, 'check', 'job.yaml')]) {
        expect(ran.error).toMatch(/job\.yaml:\d+:\d+ .*keep_outs\.2\.step {2}\[keep-out\/changed\]/);
        expect(ran.code).toBe(0);
      }
    });
  });

  it('a build of everything made again is known to be the same until the file of a keep-out changes', async () => {
    const demo = 'fixtures/hillclimb-four';
    await inFolder(async (folder) => {
      const job = readFileSync(`${demo}/job.yaml`, 'utf8').replace(
        'keep_outs:\n',
        "keep_outs:\n  - { name: cat, mesh: 'a cat.stl', clear: 5 }\n",
      );
      writeFileSync(path.join(folder, 'job.yaml'), job);
      writeFileSync(path.join(folder, 'rack.yaml'), readFileSync(`${demo}/rack.yaml`));
      const skin = boxSkin([300, -500, 300], [400, -400, 400]);
      writeFileSync(path.join(folder, 'a cat.stl'), binaryStl(skin));
      const build = async (): Promise<string> => {
        const ran = await command(folder, 'build', 'job.yaml', '--formats', 'dxf');
        expect(ran.code).toBe(0);
        return readFileSync(path.join(folder, 'exports/hillclimb-four/manifest.json'), 'utf8');
      };
      const [one, same] = [await build(), await build()];
      expect(same).toBe(one);
      writeFileSync(path.join(folder, 'a cat.stl'), binaryStl(skin.slice(1)));
      expect(await build()).not.toBe(one);
    });
  });
});

describe('what is wrong with the file of a keep-out', () => {
  const box = boxSkin([200, -300, 100], [300, -200, 200]);
  const kilometres = textStl(boxSkin([2000, -300, 100], [3000, -200, 200]));
  const cases: readonly (readonly [
    code: string,
    keys: string,
    bytes: Uint8Array | string | undefined,
    says: RegExp,
  ])[] = [
    ['keep-out/no-file', 'mesh: scan.stl', undefined, /there is no file scan\.stl beside the job/],
    ['keep-out/no-file', 'mesh: .', undefined, /is a folder/],
    ['keep-out/unreadable', 'mesh: scan.stl', binaryStl(box).slice(0, 300), /cut short/],
    ['keep-out/unreadable', 'step: scan.stl', binaryStl(box), /write mesh: scan\.stl instead of step:/],
    [
      'solid/step-read',
      'step: scan.stl',
      'ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n',
      /no solid found/,
    ],
    ['keep-out/unit', 'mesh: scan.stl, file_unit: m', kilometres, /reaches \d+ m from/],
    [
      'keep-out/matched',
      'mesh: scan.stl, matched: [{in_file: [0, 0, 0], at: [0, 0, 0]}, {in_file: [1, 0, 0], at: [1000, 0, 0]}, {in_file: [0, 1, 0], at: [0, 1000, 0]}]',
      binaryStl(box),
      /file_unit: m$/m,
    ],
  ];
  const withKeys = (keys: string): string =>
    caseText('v2').replace('keep_outs:\n', `keep_outs:\n- { name: subframe, clear: 10, ${keys} }\n`);

  it.each(cases)(
    '%s, %s: route and check end with exit code 2 at its line',
    async (code, keys, bytes, says) => {
      await inFolder(async (folder) => {
        lay(folder, 'v2', withKeys(keys), bytes === undefined ? {} : { 'scan.stl': bytes });
        for (const word of ['route', 'check']) {
          const ran = await command(folder, word, 'job.yaml');
          const exit = pages[code as keyof typeof pages].exit;
          expect(ran.code).toBe(exit);
          expect(ran.error).toMatch(/job\.yaml:\d+:\d+ +keep_outs\.0/);
          expect(ran.error).toContain(`[${code}]`);
          expect(ran.error).toMatch(says);
        }
      });
    },
  );

  // Odd, but it may be meant.
  const odd: readonly (readonly [code: string, keys: string, skin: readonly Corners[], says: RegExp])[] = [
    [
      'keep-out/unit',
      'mesh: scan.stl',
      elsewhere(box),
      /comes out 0\.1 x 0\.1 x 0\.1 mm large.*file_unit: m/s,
    ],
    [
      'keep-out/far-off',
      'mesh: scan.stl',
      boxSkin([5000, 0, 0], [5100, 100, 100]),
      /lies \d+ mm from ports and collector.*matched:/s,
    ],
    ['keep-out/open', 'mesh: scan.stl', box.slice(2), /not closed: 4 open edges in 10 triangles/],
  ];
  it.each(odd)('%s: told, and the work goes on', async (code, keys, skin, says) => {
    await inFolder(async (folder) => {
      lay(folder, 'v2', withKeys(keys), { 'scan.stl': binaryStl(skin) });
      const ran = await command(folder, 'check', 'job.yaml');
      expect(ran.error).toMatch(/job\.yaml:\d+:\d+ +keep_outs\.0\.mesh/);
      expect(ran.error).toContain(`[${code}]`);
      expect(ran.error).toMatch(says);
    });
  });

  it('every code of these files has been met', () => {
    const met = new Set([...cases, ...odd].map(([code]) => code).concat('keep-out/changed'));
    // Too large to be laid on a disk for it: tests/read/stl.test.ts.
    met.add('keep-out/too-fine');
    expect(Object.keys(pages).filter((code) => code.startsWith('keep-out/') && !met.has(code))).toEqual([]);
  });
});
