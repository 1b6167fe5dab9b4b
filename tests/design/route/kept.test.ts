import { describe, expect, it } from 'vitest';
import { routeJob } from '../../../src/design/route/index.js';
import { judge } from '../../support/judge.js';
import { caseFolder, caseText, routingCase } from '../../support/routing-cases.js';

describe('primaries given by hand', () => {
  const { job, rack } = routingCase('flat4');
  const whole = routeJob(job, rack, { seed: 1, effort: 'quick' }).record;
  if (!whole) throw new Error('flat4 is routed');
  const withHand = (ids: readonly string[]) => {
    const rows = Object.fromEntries(
      whole.primaries.filter(({ id }) => ids.includes(id)).map(({ id, rows: own }) => [id, own]),
    );
    // JSON is YAML, too.
    const text = caseText('flat4').replace('primaries: {', `primaries: {by_hand: ${JSON.stringify(rows)}, `);
    return routingCase('flat4', text);
  };

  it('stay to the last digit; the others are routed round them, as long as they are', () => {
    const kept = withHand(['P2', 'P3']);
    const result = routeJob(kept.job, kept.rack, { seed: 2, effort: 'quick' });
    expect(result.outcome).toBe('routed');
    if (!result.record) throw new Error('no record');
    for (const id of ['P2', 'P3']) {
      const found = result.record.primaries.find((primary) => primary.id === id);
      const given = whole.primaries.find((primary) => primary.id === id);
      expect(found?.slot).toBe(given?.slot);
      expect(found?.rows).toEqual(given?.rows);
    }
    // Another seed gives the free ones another way.
    expect(result.record.primaries[0]?.rows).not.toEqual(whole.primaries[0]?.rows);
    const verdict = judge(caseFolder('flat4'), result.record);
    expect(verdict.faults).toEqual([]);
    expect(result.welds).toBe(12);
  });

  it('all four given by hand: all are routed anew', () => {
    const kept = withHand(['P1', 'P2', 'P3', 'P4']);
    const result = routeJob(kept.job, kept.rack, { seed: 2, effort: 'quick' });
    expect(result.record?.primaries[0]?.rows).not.toEqual(whole.primaries[0]?.rows);
    expect(result.outcome).toBe('routed');
  });
});
