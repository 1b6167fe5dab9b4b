import { mkdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import path from 'node:path';
import { pid } from 'node:process';
import { problemFromDisk } from '../../../src/files/export/disk-problems.js';
import type { Export } from '../../../src/files/export/write-export.js';
import { problemsOfMeasures, writeExport } from '../../../src/files/index.js';
import { exportOf, file } from '../../files/export-build.js';
import { inFolder } from '../../support/command.js';
import { from, type Trigger } from './trigger.js';

const whole = exportOf([file('flange.dxf', 'one'), file('flange.step', 'two')]);

/** What is told of a build into a folder that was made ready for it. */
const into = (code: string, ready: (folder: string) => unknown, contents: Export = whole): Trigger =>
  from(code, () =>
    inFolder(async (place) => {
      const folder = path.join(place, 'sample');
      await ready(folder);
      return (await writeExport(folder, contents, { patience: 60 })).problems;
    }),
  );
const refusedBy = (code: string, errno: string): Trigger =>
  from(code, () => [problemFromDisk(Object.assign(new Error('no'), { code: errno }), 'sample')]);

/** What is told of the folder that is written to, and of the disk. */
export const byFolders: readonly Trigger[] = [
  into('file/target-is-a-file', (folder) => writeFileSync(folder, 'mine')),
  into('file/not-ours', (folder) => {
    mkdirSync(folder);
    writeFileSync(path.join(folder, 'thesis.txt'), 'years of work');
  }),
  into('file/busy', (folder) =>
    writeFileSync(
      path.join(path.dirname(folder), '.sample.tackwright-lock'),
      JSON.stringify({ pid, host: hostname() }),
    ),
  ),
  into('file/changed-by-hand', async (folder) => {
    await writeExport(folder, whole);
    writeFileSync(path.join(folder, 'flange.dxf'), 'my own change');
  }),
  into(
    'file/stale',
    (folder) => writeExport(folder, whole),
    exportOf([file('flange.dxf', 'new', 'b')], { partial: true, partInputs: { flange: 'b' } }),
  ),
  into('file/bug', () => undefined, exportOf([file('../flange.dxf', 'x')])),
  refusedBy('file/no-rights', 'EACCES'),
  refusedBy('file/read-only', 'EROFS'),
  refusedBy('file/disk-full', 'ENOSPC'),
  refusedBy('file/cannot-write', 'EIO'),
  from('file/off-measure', () =>
    problemsOfMeasures([
      { part: 'flange', what: 'width', asked: 100, measured: 101, unit: 'mm', tolerance: 0.1, reader: 'dxf-parser', ok: false }, // prettier-ignore
    ]),
  ),
];
