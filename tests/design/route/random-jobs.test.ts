import { describe, expect, it } from 'vitest';
import { routeJob } from '../../../src/design/route/index.js';
import { checkRandomRoute, readRandomJob } from '../../support/check-random-route.js';

/*
 * Random jobs with clutter, at quick effort: whatever comes of them must stand before a judge that shares
 * nothing with the router, and before headers found by planting or plain trial. A hundred at the usual effort:
 * tests/tooling/bench-random-jobs.ts.
 */
describe('random jobs', () => {
  // Even seeds hold a planted header; those here are found at quick effort too.
  for (const [seed, outcome] of [
    [2, 'routed'],
    [4, 'routed'],
    [6, 'routed'],
    [8, 'routed'],
    [10, 'routed'],
    [12, 'routed'],
    [74, 'routed'],
    [3, 'not found'],
    [11, 'routed'],
    [19, 'proved impossible'],
  ] as const)
    it(`job ${seed}: ${outcome}, and nothing wrong with that`, () => {
      const { result, wrong, planted } = checkRandomRoute(seed, 'quick');
      expect(wrong).toEqual([]);
      expect(planted).toBe(seed % 2 === 0);
      expect(result.outcome).toBe(outcome);
    }, 300_000);

  it('the same seed gives the same bytes twice: slip and welded, clocked and free', () => {
    const slipAndFree = [2, 4, 8, 14].map((seed) => {
      const { job, rack, text } = readRandomJob(seed);
      expect(readRandomJob(seed).text).toBe(text);
      const options = { seed: 5, effort: 'quick', explain: false } as const;
      const [a, b] = [1, 2].map(() => JSON.stringify(routeJob(job, rack, options)));
      expect(a).toBe(b);
      return `${job.collector.joint}${job.collector.clocking === undefined ? ' free' : ''}`;
    });
    expect(new Set(slipAndFree).size).toBeGreaterThan(1);
  }, 300_000);
});
