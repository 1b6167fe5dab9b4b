import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import path from 'node:path';
import { pid } from 'node:process';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Export } from '../../src/files/export/write-export.js';
import { problemFromDisk } from '../../src/files/export/disk-problems.js';
import { readManifest, verifyManifest, writeExport } from '../../src/files/index.js';
import { exportOf, file } from './export-build.js';

let place: string;
let folder: string;
beforeEach(() => {
  place = mkdtempSync(path.join(tmpdir(), 'tackwright-export-'));
  folder = path.join(place, 'sample');
});
afterEach(() => rmSync(place, { recursive: true, force: true }));

const at = (...steps: string[]): string => path.join(folder, ...steps);
const textOf = (...steps: string[]): string => readFileSync(at(...steps), 'utf8');
const build = async (contents: Export): Promise<readonly string[]> =>
  (await writeExport(folder, contents, { patience: 60 })).problems.map((problem) => problem.code);
const whole = exportOf([file('flange.dxf', 'one'), file('flange.step', 'two'), file('plate.dxf', 'three')]);

describe('a whole build', () => {
  test('writes its files and a manifest whose hashes hold, and leaves nothing beside the folder', async () => {
    expect(await build(whole)).toEqual([]);
    expect(readdirSync(folder).sort()).toEqual(['flange.dxf', 'flange.step', 'manifest.json', 'plate.dxf']);
    expect(readdirSync(place)).toEqual(['sample']);
    expect(verifyManifest(folder)?.map((row) => row.state)).toEqual(['good', 'good', 'good']);
  });

  test('the same build gives a manifest of the same bytes', async () => {
    await build(whole);
    const first = textOf('manifest.json');
    await build(whole);
    expect(textOf('manifest.json')).toBe(first);
  });

  test('takes away files of an earlier build that it no longer makes', async () => {
    await build(whole);
    await build(exportOf([file('flange.dxf', 'new')]));
    expect(readdirSync(folder).sort()).toEqual(['flange.dxf', 'manifest.json']);
    expect(textOf('flange.dxf')).toBe('new');
  });

  test('keeps what somebody dropped into the folder, deep down too', async () => {
    await build(whole);
    writeFileSync(at('notes.txt'), 'cut on Monday');
    mkdirSync(at('pictures', 'first'), { recursive: true });
    writeFileSync(at('pictures', 'first', 'one.png'), 'png');
    const { value } = await writeExport(folder, whole);
    expect(value?.kept).toEqual(['notes.txt', 'pictures/first/one.png']);
    expect(textOf('notes.txt')).toBe('cut on Monday');
    expect(textOf('pictures', 'first', 'one.png')).toBe('png');
  });

  test('keeps a file of ours that was changed by hand beside the new one, and says so', async () => {
    await build(whole);
    writeFileSync(at('flange.dxf'), 'my own change');
    expect(await build(whole)).toEqual(['file/changed-by-hand']);
    expect(textOf('flange.dxf')).toBe('one');
    expect(textOf('flange.by-hand.dxf')).toBe('my own change');
    // Changed again: neither of the two is lost.
    writeFileSync(at('flange.dxf'), 'another change');
    await build(whole);
    expect(textOf('flange.by-hand.dxf')).toBe('my own change');
    expect(textOf('flange.by-hand.by-hand.dxf')).toBe('another change');
  });

  test('keeps a file of the user that has the name of a new one', async () => {
    await build(exportOf([file('flange.dxf', 'one')]));
    writeFileSync(at('flange.step'), 'drawn by hand');
    expect(await build(whole)).toEqual(['file/changed-by-hand']);
    expect(textOf('flange.step')).toBe('two');
    expect(textOf('flange.by-hand.step')).toBe('drawn by hand');
  });

  test('goes into an empty folder, and into folders that are not there yet', async () => {
    mkdirSync(folder);
    expect(await build(whole)).toEqual([]);
    folder = path.join(place, 'a', 'b');
    expect(await build(whole)).toEqual([]);
    expect(textOf('flange.dxf')).toBe('one');
  });
});

describe('a build of some files', () => {
  const some = (files: Export['files'], partInputs: Record<string, string> = {}): Export =>
    exportOf(files, { partial: true, partInputs: { flange: 'a', plate: 'a', ...partInputs } });

  test('carries the others over byte for byte and marks those whose inputs changed', async () => {
    await build(whole);
    const codes = await build(some([file('flange.dxf', 'new', 'b')], { flange: 'b' }));
    expect(codes).toEqual(['file/stale']);
    expect(textOf('flange.dxf')).toBe('new');
    expect(textOf('flange.step')).toBe('two');
    const states = readManifest(folder)?.files.map((row) => [row.path, row.inputs, row.stale === true]);
    expect(states).toEqual([
      ['flange.dxf', 'b', false],
      ['flange.step', 'a', true],
      ['plate.dxf', 'a', false],
    ]);
    expect(verifyManifest(folder)?.map((row) => row.state)).toEqual(['good', 'good', 'good']);
  });

  test('a file is no longer stale once the job is as it was', async () => {
    await build(whole);
    await build(some([file('plate.dxf', 'p')], { flange: 'b' }));
    expect(readManifest(folder)?.files.filter((row) => row.stale)).toHaveLength(2);
    expect(await build(some([file('plate.dxf', 'p')]))).toEqual([]);
    expect(readManifest(folder)?.files.filter((row) => row.stale)).toHaveLength(0);
  });

  test('a part whose file now has another name is not left beside the new one', async () => {
    const named = (size: string): Export['files'][number] => ({
      ...file('flange.dxf', size),
      path: `flange_${size}.dxf`,
    });
    await build(exportOf([named('334x87x10-mm')]));
    await build(some([named('340x90x10-mm')]));
    expect(readdirSync(folder).sort()).toEqual(['flange_340x90x10-mm.dxf', 'manifest.json']);
  });

  test('measures of what was carried over stay, those of what was made anew are replaced', async () => {
    const measure = (part: string, reader: string, asked: number) =>
      ({
        part,
        what: 'width',
        asked,
        measured: asked,
        unit: 'mm',
        tolerance: 1e-4,
        reader,
        ok: true,
      }) as const;
    await build({
      ...whole,
      measures: [
        measure('flange', 'dxf-parser', 1),
        measure('flange', 'step', 2),
        measure('plate', 'dxf-parser', 3),
      ],
    });
    await build({ ...some([file('flange.dxf', 'new')]), measures: [measure('flange', 'dxf-parser', 9)] });
    const rows = readManifest(folder)?.measures.map((row) => [row.part, row.reader, row.asked]);
    expect(rows).toEqual([
      ['flange', 'step', 2],
      ['plate', 'dxf-parser', 3],
      ['flange', 'dxf-parser', 9],
    ]);
  });

  test('a carried file costs no second copy: it is the same file on the disk', async () => {
    await build(whole);
    const before = statSync(at('flange.step')).ino;
    await build(some([file('plate.dxf', 'p')]));
    expect(statSync(at('flange.step')).ino).toBe(before);
  });
});

describe('refusals leave everything as it was', () => {
  test('a file where the folder should be', async () => {
    writeFileSync(folder, 'mine');
    expect(await build(whole)).toEqual(['file/target-is-a-file']);
    expect(readFileSync(folder, 'utf8')).toBe('mine');
    expect(readdirSync(place)).toEqual(['sample']);
  });

  test('a file where the folder above should be', async () => {
    writeFileSync(folder, 'mine');
    folder = path.join(folder, 'deeper');
    expect(await build(whole)).toEqual(['file/target-is-a-file']);
  });

  test('a folder of somebody else, also one with a manifest.json that is not ours', async () => {
    mkdirSync(folder);
    writeFileSync(at('thesis.txt'), 'years of work');
    expect(await build(whole)).toEqual(['file/not-ours']);
    writeFileSync(at('manifest.json'), '{"name": "some web page"}');
    expect(await build(whole)).toEqual(['file/not-ours']);
    expect(readdirSync(folder).sort()).toEqual(['manifest.json', 'thesis.txt']);
    expect(readdirSync(place)).toEqual(['sample']);
  });

  test('a manifest that points out of its folder is not taken for ours', async () => {
    await build(whole);
    writeFileSync(at('manifest.json'), textOf('manifest.json').replace('"flange.dxf"', '"../../secret.dxf"'));
    expect(readManifest(folder)).toBe(undefined);
    expect(await build(whole)).toEqual(['file/not-ours']);
  });

  test('a file of the build named out of the folder, or twice, is our own fault', async () => {
    expect(await build(exportOf([file('../flange.dxf', 'x')]))).toEqual(['file/bug']);
    expect(await build(exportOf([file('a.dxf', 'x'), file('a.dxf', 'y')]))).toEqual(['file/bug']);
    expect(existsSync(folder)).toBe(false);
  });

  test('a failure half way through leaves the last good export and no folder beside it', async () => {
    await build(whole);
    // A file cannot be a folder as well: the second of these cannot be written.
    const codes = await build(exportOf([file('x', 'one'), file('x/y', 'two')]));
    expect(codes).toEqual(['file/target-is-a-file']);
    expect(textOf('flange.dxf')).toBe('one');
    expect(readdirSync(place)).toEqual(['sample']);
  });

  test('a lock held by a running build is waited for, then refused', async () => {
    const lock = path.join(place, '.sample.tackwright-lock');
    writeFileSync(lock, JSON.stringify({ pid, host: hostname() }));
    expect(await build(whole)).toEqual(['file/busy']);
    expect(existsSync(lock)).toBe(true);
    expect(existsSync(folder)).toBe(false);
  });

  test('a lock from another computer is left alone', async () => {
    writeFileSync(path.join(place, '.sample.tackwright-lock'), JSON.stringify({ pid: 1, host: 'another' }));
    expect(await build(whole)).toEqual(['file/busy']);
  });

  test.each([
    ['EACCES', 'file/no-rights'],
    ['EPERM', 'file/no-rights'],
    ['EROFS', 'file/read-only'],
    ['ENOSPC', 'file/disk-full'],
    ['EIO', 'file/cannot-write'],
  ] as const)('what the system calls %s is told as %s (errno names of POSIX.1)', (code, expected) => {
    const refusal = Object.assign(new Error(`${code}: no`), { code });
    expect(problemFromDisk(refusal, folder).code).toBe(expected);
  });

  test('an error that is not of the system is not explained away', () => {
    expect(() => problemFromDisk(new TypeError('a bug'), folder)).toThrow('a bug');
  });
});
