import { expect, it } from 'vitest';
import { readJob } from '../../src/job/index.js';
import { brokenJob } from '../support/slips.js';

it('200 jobs broken by a seeded slip each give a problem with its line, what, why and fix, and never throw', () => {
  const silent: string[] = [];
  for (let n = 0; n < 200; n++) {
    const { name, good, text } = brokenJob(n);
    expect(text).not.toBe(good);
    const { value, problems } = readJob(text, { file: 'job.yaml' });
    const errors = problems.filter((p) => p.severity === 'error');
    if (errors.length === 0 || value !== undefined) {
      const lines = text.split('\n').filter((line, i) => line !== good.split('\n')[i]);
      silent.push(`${n} ${name}: ${lines.slice(0, 1).join('')}`);
    }
    for (const p of errors) {
      for (const words of [p.what, p.why, p.fix]) {
        expect(words.length, `${n} ${name} ${p.code}`).toBeGreaterThan(9);
        expect(words, `${n} ${name} ${p.code}`).not.toMatch(/undefined|\[object|NaN mm|function|Error:/);
      }
      expect(p.place?.line, `${n} ${name} ${p.code}`).toBeGreaterThan(0);
      expect(p.place?.column, `${n} ${name} ${p.code}`).toBeGreaterThan(0);
      expect(p.place?.line).toBeLessThanOrEqual(text.split('\n').length);
    }
  }
  expect(silent).toEqual([]);
});
