import { describe, expect, it } from 'vitest';
import { roundingText } from '../../src/build/rounding-text.js';
import { routesText } from '../../src/build/routes-file.js';
import { readRouteRecord, type RouteRecord } from '../../src/design/route/index.js';

const rounding = {
  snapped: [
    { primary: 'P1', misfit: { distance: 0.241, angle: 0.1 } },
    { primary: 'P2', misfit: { distance: 0.05, angle: 0.312 } },
  ],
  exact: [],
  spread: 0.87,
  spare: 2.19,
};

describe('what rounding came to, in words', () => {
  it('what is at most is rounded up, what is least down', () => {
    expect(roundingText(rounding)).toBe(
      'Rounded to half degrees and half millimetres: ends miss their slots by at most 0.25 mm and 0.32 deg, lengths differ by 0.9 mm, least clearance 2.1 mm over what is asked.',
    );
  });

  it('names what stays exact', () => {
    expect(roundingText({ ...rounding, exact: ['P3'] })).toMatch(/asked\. P3 stays exact: no round numbers/);
    const none = roundingText({ ...rounding, snapped: [], exact: ['P1', 'P2'] });
    expect(none).toMatch(/^P1, P2 stay exact: /);
  });

  it('stands in the routes file as a remark, and the record reads back as it was', () => {
    const record: RouteRecord = {
      unit: 'mm',
      job: 'trial',
      seed: 1,
      length: 200,
      collector: { at: [0, 0, 200], flow: [0, 0, 1], clocking: 0 },
      primaries: [
        {
          id: 'P1',
          slot: 'S1',
          start: { at: [0, 0, 0], direction: [0, 0, 1], clock_reference: [0, 1, 0] },
          rows: [{ straight: 200 }],
          end: { at: [0, 0, 200], direction: [0, 0, 1] },
          length: 200,
        },
      ],
    };
    const text = routesText(record, rounding);
    expect(text).toContain(`\n# ${roundingText(rounding)}\n`);
    expect(readRouteRecord(text, 'routes.yaml')).toMatchObject({ value: record, problems: [] });
    expect(routesText(record)).not.toContain('Rounded');
  });
});
