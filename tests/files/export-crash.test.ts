import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { verifyManifest, writeExport } from '../../src/files/index.js';
import { exportOf, file } from './export-build.js';

/* Builds in processes of their own, really killed at every stage of the swap. */
let bench: string;
let child: string;
let place: string;
let folder: string;
let count = 0;

beforeAll(async () => {
  bench = mkdtempSync(path.join(tmpdir(), 'tackwright-crash-'));
  chmodSync(bench, 0o755);
  child = path.join(bench, 'child.mjs');
  const entryPoints = [new URL('export-child.ts', import.meta.url).pathname];
  await build({
    entryPoints,
    outfile: child,
    bundle: true,
    platform: 'node',
    format: 'esm',
    logLevel: 'error',
  });
});
afterAll(() => rmSync(bench, { recursive: true, force: true }));
beforeEach(() => {
  place = path.join(bench, `place-${count++}`);
  folder = path.join(place, 'sample');
  mkdirSync(place);
});

const buildElsewhere = (stage: string, text: string): ReturnType<typeof spawnSync> =>
  spawnSync(process.execPath, [child, folder, stage, text], { encoding: 'utf8' });
const buildHere = async (text: string): Promise<readonly string[]> => {
  const files = ['flange.dxf', 'flange.step', 'plate.dxf'].map((name) => file(name, `${name} ${text}`));
  return (await writeExport(folder, exportOf(files), { patience: 60 })).problems.map(
    (problem) => problem.code,
  );
};
/** The text that all files of the folder agree on: a mixture of two builds has none. */
const builtFrom = (): string => {
  const texts = ['flange.dxf', 'flange.step', 'plate.dxf'].map((name) =>
    readFileSync(path.join(folder, name), 'utf8').replace(`${name} `, ''),
  );
  return new Set(texts).size === 1 ? (texts[0] ?? '') : `mixed: ${texts.join(', ')}`;
};
const states = (): readonly string[] => [...new Set(verifyManifest(folder)?.map((row) => row.state))];

describe.each([
  { stage: 'locked', mended: [] },
  { stage: 'half written', mended: [] },
  { stage: 'all written', mended: [] },
  { stage: 'old set aside', mended: ['file/mended'] },
  { stage: 'new in place', mended: [] },
])('killed when "$stage"', ({ stage, mended }) => {
  test('the next build mends it, puts its own files in and leaves nothing beside the folder', async () => {
    await buildHere('first');
    writeFileSync(path.join(folder, 'notes.txt'), 'mine');
    expect(buildElsewhere(stage, 'second').signal).toBe('SIGKILL');
    expect(await buildHere('third')).toEqual(mended);
    expect(builtFrom()).toBe('third');
    expect(states()).toEqual(['good']);
    expect(readdirSync(place)).toEqual(['sample']);
    expect(readFileSync(path.join(folder, 'notes.txt'), 'utf8')).toBe('mine');
  });

  test('a first build is mended too', async () => {
    expect(buildElsewhere(stage, 'first').signal).toBe('SIGKILL');
    expect(await buildHere('second')).toEqual([]);
    expect(builtFrom()).toBe('second');
    expect(readdirSync(place)).toEqual(['sample']);
  });
});

test('killed with the old folder set aside, then refused for another reason: the new files are in place, whole', async () => {
  await buildHere('first');
  buildElsewhere('old set aside', 'second');
  expect(existsSync(folder)).toBe(false);
  // A build that fails of itself still mends first.
  await writeExport(folder, exportOf([file('x', 'one'), file('x/y', 'two')]));
  expect(builtFrom()).toBe('second');
  expect(states()).toEqual(['good']);
  expect(readdirSync(place)).toEqual(['sample']);
});

test('killed with the old folder set aside and the new one spoiled since: the old one comes back', async () => {
  await buildHere('first');
  buildElsewhere('old set aside', 'second');
  writeFileSync(path.join(place, '.sample.tackwright-new', 'flange.step'), '');
  await writeExport(folder, exportOf([file('x', 'one'), file('x/y', 'two')]));
  expect(builtFrom()).toBe('first');
  expect(states()).toEqual(['good']);
});

test('a file dropped into the old folder after it had been carried over is brought along', async () => {
  await buildHere('first');
  buildElsewhere('new in place', 'second');
  writeFileSync(path.join(place, '.sample.tackwright-old', 'late.txt'), 'late');
  await buildHere('third');
  expect(readFileSync(path.join(folder, 'late.txt'), 'utf8')).toBe('late');
});

test('six builds at once: all succeed in turn, and the folder is of one of them', async () => {
  const runs = ['a', 'b', 'c', 'd', 'e', 'f'].map(
    (text) =>
      new Promise<string>((done) => {
        let said = '';
        const run = spawn(process.execPath, [child, folder, '-', text]);
        run.stdout.on('data', (data) => (said += String(data)));
        run.on('close', () => done(said.trim()));
      }),
  );
  expect(await Promise.all(runs)).toEqual(['', '', '', '', '', '']);
  expect(builtFrom()).toMatch(/^[a-f]$/);
  expect(states()).toEqual(['good']);
  expect(readdirSync(place)).toEqual(['sample']);
});

test('a folder without the right to write is told as such, and stays as it was', async () => {
  await buildHere('first');
  const before = path.join(bench, 'copy');
  cpSync(place, before, { recursive: true });
  chmodSync(place, 0o555);
  // The administrator may write anywhere, so there the build runs as the user nobody.
  const asNobody = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  if (asNobody.uid !== undefined) chownSync(place, 65534, 65534);
  const run = spawnSync(process.execPath, [child, folder, '-', 'second'], { encoding: 'utf8', ...asNobody });
  chmodSync(place, 0o755);
  expect(run.stdout.trim()).toBe('file/no-rights');
  expect(builtFrom()).toBe('first');
  expect(readdirSync(place)).toEqual(['sample']);
});
