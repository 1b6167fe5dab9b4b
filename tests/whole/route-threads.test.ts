import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import { describe, expect, it } from 'vitest';
import type { SearchInput, SearchMessage } from '../../src/build/route-search.js';
import type { RouteResult } from '../../src/design/route/index.js';
import { command, inFolder } from '../support/command.js';
import { judge } from '../support/judge.js';
import { caseFolder, caseText, routingCase } from '../support/routing-cases.js';

const root = path.resolve(import.meta.dirname, '../..');
const program = path.join(root, 'dist/tackwright.js');

/** The record that the built program writes for a job, byte for byte. */
function recordOf(folder: string, threads: number, ...rest: string[]): string {
  const record = path.join(folder, `${threads}.json`);
  const args = ['route', 'job.yaml', '--record', record, '--threads', String(threads), ...rest];
  const { status, stderr } = spawnSync(process.execPath, [program, ...args], {
    cwd: folder,
    encoding: 'utf8',
  });
  expect(status, stderr).toBe(0);
  return readFileSync(record, 'utf8');
}

/** The built search of a case, stopped once it has told of an answer. */
async function stoppedAfterFirst(name: string, threads: number): Promise<RouteResult> {
  const stop = new SharedArrayBuffer(4);
  const { job, rack } = routingCase(name);
  const order: SearchInput = {
    job,
    rack,
    seed: 1,
    effort: 'thorough',
    jobHash: '',
    threads,
    meshes: [],
    stop,
  };
  const thread = new Worker(path.join(root, 'dist/route-worker.js'), { workerData: order });
  return new Promise((resolve, reject) => {
    thread.on('error', reject);
    thread.on('message', (message: SearchMessage) => {
      if ('result' in message) resolve(message.result);
      if ('progress' in message && message.progress.welds !== undefined)
        Atomics.store(new Int32Array(stop), 0, 1);
    });
  });
}

describe('a search by several threads', () => {
  it('the record is the same byte for byte by one thread and by two', async () => {
    await inFolder((folder) => {
      cpSync(path.join(root, caseFolder('v2')), folder, { recursive: true });
      expect(recordOf(folder, 2)).toBe(recordOf(folder, 1));
    });
  }, 240_000);

  it('so it is where the collector is free to turn, and whole searches are shared out', async () => {
    await inFolder((folder) => {
      cpSync(path.join(root, caseFolder('flat4')), folder, { recursive: true });
      const free = caseText('flat4').replace(/ {2}clocking: .*\n/, '');
      writeFileSync(path.join(folder, 'job.yaml'), free);
      const two = recordOf(folder, 2, '--effort', 'quick');
      expect(two).toBe(recordOf(folder, 1, '--effort', 'quick'));
      expect(two).toMatch(/"clocking": \d/);
    });
  }, 240_000);

  it('stopped, two threads end with the best so far, which is sound, and say so', async () => {
    const result = await stoppedAfterFirst('i4-near', 2);
    expect([result.outcome, result.endedEarly]).toEqual(['routed', true]);
    if (!result.record) throw new Error('no record');
    expect(judge(caseFolder('i4-near'), result.record).faults).toEqual([]);
    expect(result.welds).toBeGreaterThanOrEqual(result.bound);
  }, 240_000);

  it.each(['0', '17', '2.5', 'two'])('--threads %s is refused', async (threads) => {
    const { code, error } = await command(
      root,
      'route',
      'tests/routing-cases/v2/job.yaml',
      '--threads',
      threads,
    );
    expect(code).toBe(2);
    expect(error).toContain(`--threads ${threads} is no whole number from 1 to 16`);
  });
});
