import { describe, expect, it } from 'vitest';
import { degrees } from '../../../src/base/numbers.js';
import { candidateFrom, placeArms, placeEnds, scratchPoints } from '../../../src/design/route/candidate.js';
import { routeJob, setProblem } from '../../../src/design/route/index.js';
import { shortestAlone } from '../../../src/design/route/pace.js';
import { primaryRecord } from '../../../src/design/route/record.js';
import { isSound } from '../../../src/design/route/candidate.js';
import { judge } from '../../support/judge.js';
import { far, type V } from '../../support/plain-march.js';
import { caseFolder, routingCase } from '../../support/routing-cases.js';

describe('how short a primary could be by itself', () => {
  it('P1 of the steered four: a real tube, by the judge, no shorter than the crow flies, and shorter than it began', () => {
    const { job, rack } = routingCase('i4-steer');
    const problem = setProblem(job, rack);
    const points = scratchPoints();
    const { at, flow } = problem.collector;
    const posed = { collector: { at, flow, clocking: degrees(problem.collector.clocking) } };
    let begun = 0;
    for (let slot = 0; slot < 4; slot++) {
      for (let a = 60; a < 400 && begun < 4; a += 20)
        for (let b = 80; b < 400; b += 20) {
          placeEnds(problem, 0, slot, 2, points);
          placeArms(problem, 0, slot, 2, { a, b }, points);
          const route = candidateFrom(problem, { start: 0, slot }, points, [42.4, 42.4]);
          if (!(route.length > 600) || !isSound(problem, route, 0.4)) continue;
          begun++;
          const short = shortestAlone(problem, route, 1);
          expect(short.length).toBeLessThan(route.length);
          const primary = primaryRecord(problem, short);
          const crow = far(primary.start.at as V, primary.end.at as V);
          expect(short.length).toBeGreaterThan(crow);
          const verdict = judge(caseFolder('i4-steer'), {
            ...posed,
            primaries: [primary],
            length: primary.length,
          });
          expect(verdict.faults.filter((fault) => !/out of the window|are missing/.test(fault))).toEqual([]);
          break;
        }
    }
    expect(begun).toBeGreaterThan(0);
  });

  it('every primary of an answer, told beside it: none longer than the common length', () => {
    const { job, rack } = routingCase('flat4');
    const { pace, record } = routeJob(job, rack, { seed: 1, effort: 'quick' });
    expect(pace.map(({ primary }) => primary)).toEqual(['P1', 'P2', 'P3', 'P4']);
    expect(pace.map(({ slot }) => slot)).toEqual(record?.primaries.map(({ slot }) => slot));
    // The window starts at 750: there is room below it for each of these by itself.
    expect(Math.max(...pace.map(({ shortest }) => shortest ?? NaN))).toBeLessThan(700);
    expect(Math.min(...pace.map(({ shortest }) => shortest ?? NaN))).toBeGreaterThan(300);
  });
});
