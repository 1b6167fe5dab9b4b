import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../../src/base/random.js';
import { provenSpare } from '../../../src/design/route/measure.js';
import { isRoutable, routeJob } from '../../../src/design/route/index.js';
import { checkRecord } from '../../../src/design/route/frozen.js';
import { primaryRecord, type RecordRow } from '../../../src/design/route/record.js';
import { snap } from '../../../src/design/route/snap.js';
import { readJob } from '../../../src/job/index.js';
import { readRack } from '../../../src/job/rack-read.js';
import { judge } from '../../support/judge.js';
import { cross, dot, far, size, toBody } from '../../support/plain-march.js';
import { LIMITS, marchOf, OD, randomTube, type RandomTube } from '../../support/random-tubes.js';
import { caseFolder, caseText, routingCase } from '../../support/routing-cases.js';

/*
 * Every rounded answer is marched by other formulas and measured by brute force. What a joint takes up, half a
 * millimetre and half a degree, is common practice, no source.
 */
const ALLOWED = { distance: 0.5 + 1e-9, angle: 0.5 + 1e-9, spread: 2 };
const isWhole = (value: number): boolean => Math.abs(value * 2 - Math.round(value * 2)) < 1e-9;
const allWhole = (rows: readonly RecordRow[]): boolean =>
  rows.every((row) => ('straight' in row ? isWhole(row.straight) : isWhole(row.angle) && isWhole(row.clock)));

/** What is wrong with a rounded tube, in words. */
function faultsOf(tube: RandomTube, rows: readonly RecordRow[], spread: number): string[] {
  const faults: string[] = [];
  const line = marchOf(tube, rows, 0.25);
  if (!allWhole(rows)) faults.push('no round numbers');
  if (far(line.end.at, tube.slot.at) > ALLOWED.distance) faults.push('misses the slot');
  const [sine, cosine] = [size(cross(line.end.flow, tube.slot.flow)), dot(line.end.flow, tube.slot.flow)];
  if ((Math.atan2(sine, cosine) * 180) / Math.PI > ALLOWED.angle) faults.push('points elsewhere');
  if (Math.abs(line.length - marchOf(tube, tube.rows, 1).length) > spread + 1e-6)
    faults.push('too long or short');
  rows.forEach((row, i) => {
    const least = i === 0 ? LIMITS.stub : i === rows.length - 1 ? LIMITS.lastStraight : LIMITS.between;
    if ('straight' in row && row.straight < least) faults.push(`straight of ${row.straight}`);
    if ('clr' in row && (row.angle < LIMITS.leastAngle || row.angle > LIMITS.largestAngle))
      faults.push(`angle of ${row.angle}`);
  });
  const nearest = Math.min(...line.stations.map(({ p }) => toBody(tube.rod, p))) - OD / 2;
  if (nearest < tube.clear) faults.push(`${nearest} from the rod`);
  return faults;
}

function snapped(
  tube: RandomTube,
): { rows: readonly RecordRow[]; whole: boolean; misfit: number } | undefined {
  const { problem, route } = tube;
  const spare = provenSpare(problem, [route]);
  // A tube that runs into itself is no answer to begin with.
  if (spare < 0 || route.welds === Infinity) return undefined;
  const found = snap(problem, { routes: [route], length: route.length, welds: route.welds, spare }, 1);
  const [one] = found?.answer.routes ?? [];
  if (found === undefined || one === undefined) throw new Error('the spread is there to be spent');
  expect(one.welds).toBeLessThanOrEqual(route.welds);
  expect(found.rounding.spare).toBeGreaterThanOrEqual(0);
  const { rows, end } = primaryRecord(problem, one);
  expect(far(marchOf(tube, rows, 1).end.at, end.at)).toBeLessThan(1e-6);
  const told = found.rounding.snapped[0]?.misfit.distance ?? 0;
  expect(Math.abs(told - far(end.at, tube.slot.at))).toBeLessThan(1e-6);
  return { rows, whole: found.rounding.exact.length === 0, misfit: told };
}

describe('rounding one primary', () => {
  const { rack } = routingCase('i4-easy');
  // Measured with 130 tries, 40 flat: 93 of 98, 106 of 106, 100 of 100, 28 of 31.
  for (const [what, bends, flat, tries, share] of [
    ['two bends', 2, false, 100, 0.9],
    ['three bends', 3, false, 100, 0.97],
    ['four bends', 4, false, 100, 0.97],
    ['two bends in one plane', 2, true, 40, 0.7],
  ] as const)
    it(`${what}: what is rounded meets its slot, clear of a rod; nearly all are`, () => {
      const random = randomFrom(100 + bends + (flat ? 7 : 0));
      let [all, whole] = [0, 0];
      for (let t = 0; t < tries; t++) {
        const tube = randomTube(random, rack, bends, 2, flat);
        const found = tube && snapped(tube);
        if (tube === undefined || found === undefined) continue;
        all++;
        if (!found.whole) continue;
        whole++;
        expect(faultsOf(tube, found.rows, 2), JSON.stringify(tube.rows)).toEqual([]);
      }
      expect(all).toBeGreaterThan(tries / 2);
      expect(whole / all).toBeGreaterThan(share);
    });

  it('is left alone where the spread is half a millimetre or less', () => {
    const random = randomFrom(5);
    let seen = 0;
    for (let t = 0; t < 10; t++) {
      const tube = randomTube(random, rack, 2, 0.5);
      if (tube === undefined) continue;
      seen++;
      const { problem, route } = tube;
      expect(snap(problem, { routes: [route], length: route.length, welds: 3, spare: 1 }, 1)).toBe(undefined);
    }
    expect(seen).toBeGreaterThan(3);
  });
});

describe('rounding whole jobs', () => {
  const loose = (name: string): string => caseText(name).replace('spread: 0.1', 'spread: 2');
  // The welds that the exact answers of these have, and no more.
  for (const [name, most, known] of [
    ['flat4', 0, 12],
    ['i4-easy', 0, 12],
    ['i4-steer', 0, 14],
    ['v2', 0, 7],
    ['i6', 1, 19],
  ] as const)
    it(`${name}: all but ${most} in round numbers, judged apart`, () => {
      const text = loose(name);
      const { job, rack } = routingCase(name, text);
      const { record, rounding, welds } = routeJob(job, rack, { seed: 1, effort: 'quick' });
      if (record === undefined || rounding === undefined) throw new Error('no rounded record');
      const verdict = judge(caseFolder(name), record, name === 'i6' ? 1 : 0.5, text, ALLOWED);
      expect(verdict.faults).toEqual([]);
      expect(welds).toBe(known);
      expect(rounding.exact.length).toBeLessThanOrEqual(most);
      for (const { id, rows } of record.primaries)
        expect(allWhole(rows), id).toBe(!rounding.exact.includes(id));
      const lengths = record.primaries.map(({ length }) => length);
      expect(rounding.spread).toBeCloseTo(Math.max(...lengths) - Math.min(...lengths), 6);
      expect(rounding.spread).toBeLessThanOrEqual(2);
      expect(record.length).toBe(Math.max(...lengths));
      // A strict judge sees that they are not exact: the misfit is there, and told.
      expect(judge(caseFolder(name), record, 4, text).faults.length).toBeGreaterThan(0);
    });

  it('the same seed gives the same rounding twice', () => {
    const { job, rack } = routingCase('v2', loose('v2'));
    const [a, b] = [1, 2].map(() => JSON.stringify(routeJob(job, rack, { seed: 3, effort: 'quick' }).record));
    expect(a).toBe(b);
  });

  it('primaries by hand stay to the last digit, the others are rounded about them', () => {
    const { job, rack } = routingCase('flat4');
    const exact = routeJob(job, rack, { seed: 1, effort: 'quick' });
    // With a spread of 0.1 nothing is rounded.
    expect(exact.rounding).toBe(undefined);
    const kept = exact.record?.primaries.find(({ id }) => id === 'P2');
    if (!kept) throw new Error('flat4 is routed');
    const byHand = loose('flat4').replace(
      'primaries: {',
      `primaries: {by_hand: ${JSON.stringify({ P2: kept.rows })}, `,
    );
    const held = routingCase('flat4', byHand);
    const { record, rounding } = routeJob(held.job, rack, { seed: 1, effort: 'quick' });
    if (!record || !rounding) throw new Error('no rounded record');
    expect(record.primaries.find(({ id }) => id === 'P2')?.rows).toEqual(kept.rows);
    expect(rounding.snapped.map(({ primary }) => primary)).toEqual(['P1', 'P3', 'P4']);
    expect(judge(caseFolder('flat4'), record, 0.5, byHand, ALLOWED).faults).toEqual([]);
  });

  it('the demo, routed anew with a spread of 2 mm: a build takes the record without a word', () => {
    const folder = 'fixtures/hillclimb-four';
    const text = readFileSync(`${folder}/job.yaml`, 'utf8');
    expect(text).toContain('spread: 2');
    const job = readJob(text).value;
    const rack = readRack(readFileSync(`${folder}/rack.yaml`, 'utf8')).value;
    if (job === undefined || rack === undefined || !isRoutable(job)) throw new Error('the demo is routable');
    const { record, rounding } = routeJob(job, rack, { seed: 1, effort: 'quick' });
    if (!record || !rounding) throw new Error('no rounded record');
    expect(checkRecord(job, record, 'routes.yaml')).toEqual([]);
    expect(rounding.exact).toEqual([]);
    expect(record.primaries.every(({ rows }) => allWhole(rows))).toBe(true);
    // 635 to 680 mm asked, and all within 2 mm of each other.
    const lengths = record.primaries.map(({ length }) => length);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThanOrEqual(2);
    expect(Math.min(...lengths)).toBeGreaterThanOrEqual(635 - 2);
    expect(Math.max(...lengths)).toBeLessThanOrEqual(680 + 2);
  });
});
