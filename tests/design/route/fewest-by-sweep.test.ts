import { expect, it } from 'vitest';
import { proveBound } from '../../../src/design/route/prove-bound.js';
import { setProblem } from '../../../src/design/route/index.js';
import { plainRouteJob } from '../../support/plain-route-job.js';
import type { Marched } from '../../support/plain-march.js';
import { caseText, routingCase } from '../../support/routing-cases.js';
import { roomiestPair, sweepJob } from '../../support/sweep-two-bends.js';

/*
 * The V-twin's bound of seven welds, by a sweep that shares nothing with the proof: a three-weld primary has
 * two bends (stock of half a turn, legs of 100), and a two-bend tube is given by its two arms and radii. All
 * of them are looked at on a grid.
 *
 * What it assumes: the grid is 6 mm and everything may fall 1 mm (or 1 degree) short. Between neighbouring
 * points of the grid an arm is at most 3 mm off; a family of tubes is missed only where it is so thin that
 * even with 1 mm to spare it fits between four points. At 3 mm with the same slack, and at 8 and 4 mm with none,
 * the families are the same to within the pitch.
 */
const sweep = { pitch: 6, slack: 1, leg: 100, radii: [42.4, 63.6, 84.8] };
const job = plainRouteJob(caseText('v2'));
const lengths = (tubes: readonly Marched[] | undefined): readonly [number, number] => {
  const all = (tubes ?? []).map(({ length }) => length);
  return [Math.min(...all), Math.max(...all)];
};

it('two primaries of three welds never have one length in the V-twin, so it takes seven: swept at 6 mm', () => {
  const [one, two] = sweepJob(job, sweep);
  // P1 comes to S2 alone, and long; P2 only short.
  expect(one?.[0]).toEqual([]);
  const [long, short] = [lengths(one?.[1]), [lengths(two?.[0]), lengths(two?.[1])]];
  expect(one?.[1]?.length).toBeGreaterThan(50);
  expect(two?.[0]?.length).toBeGreaterThan(150);
  expect(long[0]).toBeGreaterThan(755);
  for (const [, most] of short) expect(most).toBeLessThan(740);
}, 300_000);

it('without the wrench space that stands before P1 they do, and the proof lets six be', () => {
  const space = 'wrench access port 1b';
  const [one, two] = sweepJob(job, { ...sweep, pitch: 8, slack: 0 }, (name) => name === space);
  expect(lengths(one?.[0])[0]).toBeLessThan(660);
  expect(roomiestPair(job, (one?.[0] ?? []).slice(0, 30), two?.[1] ?? [], 8)).toBeGreaterThan(0);
  const text = caseText('v2').replace(/- name: wrench access port 1b[\s\S]*?(?=- name)/, '');
  expect(text).not.toContain(space);
  const { job: open, rack } = routingCase('v2', text);
  expect(proveBound(setProblem(open, rack), 0.5).together({ half: 2, clashes: 200_000 }).welds).toBe(6);
}, 300_000);
