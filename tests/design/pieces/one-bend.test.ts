import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { fewestWelds } from '../../../src/design/pieces/fewest-welds.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { weldCounter } from '../../../src/design/pieces/weld-counter.js';
import type { CentreLineRow } from '../../../src/geom/centre-line.js';
import { demoRack, rackOf } from '../../support/trial-pieces.js';

/** Two bends with nothing between, a stub of 90 and 90 behind: by the exact count and by the quick one. */
function weldsOf(angle: number, clock: number, rack = demoRack, clr = 63.6): (number | undefined)[] {
  const bend = { clr, angle: radians(angle) };
  const rows: CentreLineRow[] = [
    { straight: 90 },
    { ...bend, clock: 1 },
    { straight: 0 },
    { ...bend, clock },
    { straight: 90 },
  ];
  const rules = cuttingRules(rack);
  const quick = weldCounter(rules)([90, 0, 90], [clr, clr], [bend.angle, bend.angle], [1, clock]);
  return [fewestWelds(rows, rules)?.welds, quick];
}

describe('two bends in one plane are one', () => {
  const whole = rackOf([{ clr: 63.6, angle: radians(80), legs: [103, 103], price: 9 }]);

  it('also where the turn between them falls a rounding short of a full one, or over it', () => {
    // On paper: one stock bend of 80 deg with both legs, 1 weld; turned by a degree two pieces, a leg each.
    for (const clock of [0, 2 * Math.PI, 2 * Math.PI - 1e-12, 1e-12])
      expect(weldsOf(40, clock, whole), `${clock}`).toEqual([1, 1]);
    for (const clock of [radians(1), radians(359)]) expect(weldsOf(40, clock, whole)).toEqual([2, 2]);
  });

  it('but not where both together would be a half turn, which no bend table can hold', () => {
    const half = rackOf([{ clr: 63.6, angle: Math.PI, legs: [103, 103], price: 9 }]);
    expect(weldsOf(90, 0, half)).toEqual([2, 2]);
    // One of 179 deg is cut from it with one leg, and the other straight is an insert: 2 as well.
    expect(weldsOf(89.5, 0, half)).toEqual([2, 2]);
  });
});

describe('a stock bend of the measured radius', () => {
  it('serves a bend whose CLR is 0.04 mm off, as no tape tells them apart, and not one 0.4 mm off', () => {
    expect(weldsOf(40, 1, demoRack, 63.64)).toEqual([2, 2]);
    expect(weldsOf(40, 1, demoRack, 64)).toEqual([undefined, Infinity]);
  });
});
