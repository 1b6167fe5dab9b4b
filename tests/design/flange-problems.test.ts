import { expect, it } from 'vitest';
import { flangePages } from '../../src/base/codes/flange.js';
import { designStrongbacks } from '../../src/design/strongback.js';
import { flangeFaults } from '../support/flange-faults.js';
import { flangeJob, flangeProblems } from '../support/flange-job.js';

it.each(flangeFaults)('%s is told with its key and its figures', (code, over, path, says) => {
  const told = flangeProblems(over).filter((problem) => problem.code === code);
  expect(told.length).toBeGreaterThan(0);
  expect(told[0]?.place?.path).toBe(path);
  expect(told.map((problem) => problem.what).join('\n')).toMatch(says);
  for (const { why, fix } of told) {
    expect(why.length).toBeGreaterThan(15);
    expect(fix).not.toMatch(/NaN|undefined|Infinity/);
  }
});

it('flange/weak-strongback is told where it is no stiffer than the flange', () => {
  const { problems } = designStrongbacks(flangeJob({ strongback: { thickness: 8, margin: 10 } }));
  expect(problems.map((problem) => problem.code)).toContain('flange/weak-strongback');
});

it('the plain flange has nothing to tell', () => {
  expect(flangeProblems()).toEqual([]);
});

it('every code of the area has a job here that triggers it', () => {
  const known = new Set(flangeFaults.map(([code]) => code as string));
  const left = Object.keys(flangePages).filter((code) => !known.has(code));
  expect(left).toEqual(['flange/weak-strongback']);
});
