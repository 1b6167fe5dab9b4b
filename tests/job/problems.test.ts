import { describe, expect, it } from 'vitest';
import { jobPages } from '../../src/base/codes/job.js';
import { readJob } from '../../src/job/index.js';
import { wholeJob } from '../support/jobs.js';
import type { Broken } from './broken/broken.js';
import { brokenText } from './broken/keys-and-values.js';
import { brokenSense } from './broken/parts-of-the-job.js';
import { brokenAdvice } from './broken/unwise.js';

const broken: readonly Broken[] = [...brokenText, ...brokenSense, ...brokenAdvice];

/** Line and column, from 1, of the first `at` from the changed line on; before it where there is none. */
function spotOf(text: string, at: string, changed: number): { line: number; column: number } {
  const lineStart = text.lastIndexOf('\n', changed) + 1;
  const after = text.indexOf(at, lineStart);
  const before = text.slice(0, after < 0 ? text.lastIndexOf(at) : after).split('\n');
  return { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
}

describe('a job made bad in one place gives its problem, at that place', () => {
  it.each(broken.map((one, i) => [`${i} ${one.code} ${one.path}`, one] as const))('%s', (_, one) => {
    const good = one.job ?? wholeJob;
    expect(good).toContain(one.from.slice(0, 5));
    const text = good.replace(one.from, () => one.to);
    const { problems, value } = readJob(text, { file: 'job.yaml' });
    const found = problems.filter((p) => p.code === one.code && (p.place?.path ?? '') === one.path);
    expect(problems.map((p) => `${p.code} ${p.place?.path ?? ''}`)).toContain(`${one.code} ${one.path}`);
    const problem = found[0];
    if (!problem) throw new Error('not found');
    expect(problem.place?.file).toBe('job.yaml');
    expect(problem.place?.line).toBeGreaterThan(0);
    if (one.at !== '') {
      expect(text).toContain(one.at);
      expect({ line: problem.place?.line, column: problem.place?.column }).toEqual(
        spotOf(text, one.at, good.indexOf(one.from)),
      );
    }
    if (one.says) expect(`${problem.what} ${problem.fix}`).toMatch(one.says);
    for (const words of [problem.what, problem.why, problem.fix]) expect(words.length).toBeGreaterThan(9);
    if (problems.some((p) => p.severity === 'error')) expect(value).toBeUndefined();
    else expect(value?.name).toBe('hillclimb-four');
  });

  it('covers every code of the area but that of our own bugs, and --set', () => {
    const shown = new Set<string>(broken.map((one) => one.code));
    const missing = Object.keys(jobPages).filter((code) => !shown.has(code));
    expect(missing).toEqual(['job/set']);
  });
});

describe('several problems', () => {
  it('are all told in one pass, down the page, though they stand in different sections', () => {
    const text = wholeJob
      .replace('pitch: 92', 'pich: 92')
      .replace('thickness: 10, material', 'thickness: 100, material')
      .replace('od: 42.4', 'od: "42,4"')
      .replace('joint: slip', 'joint: slid');
    const { problems } = readJob(text);
    const errors = problems.filter((p) => p.severity === 'error');
    expect(errors.map((p) => p.place?.path)).toEqual([
      'ports.row.pich',
      'flange.thickness',
      'tube.od',
      'collector.joint',
    ]);
    const lines = errors.map((p) => p.place?.line ?? 0);
    expect([...lines].sort((a, b) => a - b)).toEqual(lines);
  });
});
