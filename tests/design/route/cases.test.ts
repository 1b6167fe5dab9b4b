import { describe, expect, it } from 'vitest';
import { routeJob } from '../../../src/design/route/index.js';
import { radians } from '../../../src/base/numbers.js';
import { fewestWelds } from '../../../src/design/pieces/fewest-welds.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import type { RecordRow } from '../../../src/design/route/record.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { caseFolder, caseText, routingCase } from '../../support/routing-cases.js';
import { judge } from '../../support/judge.js';

const inRadians = (row: RecordRow): CentreLineRow =>
  'straight' in row ? row : { clr: row.clr, angle: radians(row.angle), clock: radians(row.clock) };

/*
 * Whole cases, each answer judged apart from the router: its rows marched by other formulas, its clearance
 * measured by brute force. The slow ones and the full table: tests/tooling/bench-routing.ts.
 */
describe('routing cases', () => {
  // The fewest welds known of each; the quick effort of these tests may stand so far above them.
  for (const [name, known, over] of [
    ['i4-easy', 12, 1],
    ['i4-steer', 14, 0],
    ['i4-near', 15, 2],
    ['i6', 19, 1],
    ['v2', 7, 0],
    ['flat4', 12, 0],
  ] as const)
    it(`${name}: equal lengths, clear of all, in ${known} to ${known + over} welds`, () => {
      const { job, rack } = routingCase(name);
      const result = routeJob(job, rack, { seed: 1, effort: 'quick' });
      expect(result.outcome).toBe('routed');
      if (!result.record) throw new Error('no record');
      const verdict = judge(caseFolder(name), result.record);
      expect(verdict.faults).toEqual([]);
      expect(verdict.spare).toBeGreaterThanOrEqual(-1e-6);
      // The piece plan's exact count, and never more than the closed rule counts.
      const rules = cuttingRules(rack);
      const exact = result.record.primaries.map(({ rows }) => fewestWelds(rows.map(inRadians), rules)?.welds);
      expect(result.welds).toBe(exact.reduce<number>((sum, welds) => sum + (welds ?? Infinity), 0));
      expect(result.welds).toBeLessThanOrEqual(verdict.welds);
      expect(result.welds).toBeLessThanOrEqual(known + over);
      expect(result.bound).toBeLessThanOrEqual(known);
    });

  it('the same seed gives the same record twice, to the last digit', () => {
    const { job, rack } = routingCase('v2');
    const [a, b] = [1, 2].map(() => JSON.stringify(routeJob(job, rack, { seed: 3, effort: 'quick' }).record));
    expect(a).toBe(b);
  });

  it('x-short is proved impossible: P4 needs more than the window even as the crow flies', () => {
    const { job, rack } = routingCase('x-short');
    const result = routeJob(job, rack, { seed: 1, explain: false });
    expect(result.outcome).toBe('proved impossible');
    const proof = result.proofs.find((one) => one.kind === 'too far' && one.primary === 'P4');
    if (proof?.kind !== 'too far') throw new Error(JSON.stringify(result.proofs));
    // From (270, 0, 0) to the slots near (-425, -520, 60): 870 at least, and the stub does not point there.
    expect(proof.least).toBeGreaterThan(868);
    expect(proof.round).toBeUndefined();
    expect(proof.window).toBe(750);
  });

  it('x-wall is proved impossible: the way round the bulkhead is longer than the window', () => {
    const { job, rack } = routingCase('x-wall');
    const result = routeJob(job, rack, { seed: 1, explain: false });
    expect(result.outcome).toBe('proved impossible');
    expect(result.proofs).toHaveLength(4);
    for (const proof of result.proofs) {
      if (proof.kind !== 'too far') throw new Error(proof.kind);
      expect(proof.round).toBe('bulkhead');
      expect(proof.least).toBeGreaterThan(950);
    }
  });

  it('a collector free to turn is turned: the record says how far, and is judged with that clocking', () => {
    const free = caseText('flat4').replace(/ {2}clocking: .*\n/, '');
    const { job, rack } = routingCase('flat4', free);
    expect(job.collector.clocking).toBeUndefined();
    const result = routeJob(job, rack, { seed: 1, effort: 'quick' });
    if (!result.record) throw new Error('no record');
    const clocking = result.record.collector.clocking;
    const turned = free.replace('  half_angle:', `  clocking: ${clocking}\n  half_angle:`);
    const verdict = judge(caseFolder('flat4'), result.record, 0.5, turned);
    expect(verdict.faults).toEqual([]);
    expect(result.welds).toBe(12);
    // Nothing is proved of the poses between those looked at, but that a primary takes a piece.
    expect(result.bound).toBe(4);
  });

  it('where nothing is found: what blocks, and what less would do', () => {
    // A wall across the way of the flat four with a slit of 25 mm: two boxes, each of which alone one can pass.
    const wall = (name: string, low: number, high: number): string =>
      `- {name: ${name}, clear: 10, box: {from: [-320, ${low}, -700], to: [-300, ${high}, 500]}}\n`;
    const pan = wall('upper wall', -245, 400) + wall('lower wall', -290, -270);
    const text = caseText('flat4').replace('- name: sump', `${pan}- name: sump`);
    const { job, rack } = routingCase('flat4', text);
    const result = routeJob(job, rack, { seed: 1, effort: 'quick' });
    expect(result.outcome).toBe('not found');
    expect(result.proofs).toEqual([]);
    expect(result.blockage?.blockers[0]?.name).toBe('upper wall');
    expect(result.blockage?.blockers[0]?.path).toBe('keep_outs.2');
    expect(result.blockage?.cutOff).toHaveLength(4);
    expect(result.routedWithout).toContain('upper wall');
  });

  it('stopped at once it ends with nothing, says so, and claims no proof', () => {
    const { job, rack } = routingCase('i4-easy');
    const result = routeJob(job, rack, { seed: 1, stop: () => true });
    expect([result.outcome, result.endedEarly, result.proofs.length]).toEqual(['not found', true, 0]);
  });
});
