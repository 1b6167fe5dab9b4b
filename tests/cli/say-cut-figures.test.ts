import { describe, expect, it } from 'vitest';
import { cutFigureLines } from '../../src/cli/say-cut-figures.js';
import type { CutFigures } from '../../src/design/pieces/index.js';
import { freeHand, usualWelding, type ShopSpec } from '../../src/job/shop.js';
import { command, inFolder } from '../support/command.js';

const paint = {
  strong: (t: string) => t,
  dim: (t: string) => t,
  good: (t: string) => t,
  bad: (t: string) => t,
};
const shop: ShopSpec = {
  weldPrice: undefined,
  welding: usualWelding,
  hand: freeHand,
  cradlePlace: 0.3,
  tape: { step: 0.5, unit: 'mm' },
  weldOffWrench: 2,
};
const nothing: CutFigures = {
  estimates: {
    welds: 3,
    seam: 400,
    arc: 9,
    fitUp: 36,
    filler: undefined,
    purge: 1,
    argon: 50,
    minutes: 46,
    mass: undefined,
    cost: 60,
  },
  miss: [],
  zones: [],
  nearHeat: [],
  tape: [],
  byWelds: [],
};
const lines = (figures: Partial<CutFigures>, more: Partial<ShopSpec> = {}): string =>
  cutFigureLines({ ...nothing, ...figures }, { ...shop, ...more }, paint as never).join('\n');
const plans = (...costs: number[]) => costs.map((cost, i) => ({ welds: 3 + i, cost, proved: true }));

describe('what a weld is worth, as it is told', () => {
  it('says nothing where it was not priced, and that nothing is saved where nothing is', () => {
    expect(lines({})).toBe('');
    expect(lines({ byWelds: plans(60, 60, 60) })).toBe('up to 2 more welds would save nothing in stock');
  });

  it('one more saves 10, two save 26: 13 each is the price at which they break even', () => {
    expect(lines({ byWelds: plans(60, 50, 34) })).toBe(
      '2 welds more would save 26 in stock, 13 a weld: worth it only where a weld costs you less (shop.weld_price is not given)',
    );
    expect(lines({ byWelds: plans(60, 50, 34) }, { weldPrice: 12 })).toMatch(/your weld costs less, at 12 /);
    expect(lines({ byWelds: plans(60, 50, 34) }, { weldPrice: 14 })).toMatch(/not worth it, at 14 /);
  });

  it('one more saves as much as two: one is told; what was not looked at to the end is told so', () => {
    expect(lines({ byWelds: plans(60, 42, 42) })).toMatch(/^1 weld more would save 18 in stock: /);
    const stopped = plans(60, 42, Infinity).map((one) => ({ ...one, proved: one.welds < 5 }));
    expect(lines({ byWelds: stopped })).toMatch(/save 18 in stock \(as far as was looked\)/);
  });
});

describe('what rounding the marks costs', () => {
  const effect = {
    primary: 'P1',
    miss: { distance: 7.83, angle: 0.016 },
    missByDegrees: { distance: 2.76, angle: 0.0055 },
    pieces: [
      { piece: 'P1-1', primary: 'P1', length: 30, bend: undefined },
      { piece: 'P1-2', primary: 'P1', length: undefined, bend: { angle: 1, legUp: 0, legDown: 30, clock: 1, angleOff: -0.0054, clockOff: 0.01 } }, // prettier-ignore
    ],
  };
  it('says nothing where they are not, else a line a primary with the division of the tape', () => {
    expect(lines({ tape: [] })).toBe('');
    const told = lines({ tape: [effect] });
    expect(told).toContain('rounding the marks to 0.5 mm costs (shop.tape)');
    expect(told).toMatch(/P1 +7\.8 mm 0\.9 deg +2\.8 mm 0\.3 deg +P1-2 by -0\.31 deg$/);
    const inches = lines({ tape: [effect] }, { tape: { step: 25.4 / 64, unit: 'in' } });
    expect(inches).toContain('rounding the marks to 0 1/64 in costs');
  });
});

describe('the rest of it', () => {
  it('tells zones only where they cost a weld, heat with its distance, and the miss of each primary', () => {
    const zone = { from: 340, to: 350, what: 'a rail', path: 'rail' };
    expect(lines({ zones: [{ primary: 'P1', zones: [zone], more: 0 }] })).toBe('');
    expect(lines({ zones: [{ primary: 'P1', zones: [zone], more: 1 }] })).toBe(
      'P1 takes 1 weld more than its route was counted with: none may stand at 340 to 350 (a rail)',
    );
    const near = { weld: 'W2', primary: 'P1', at: 140.26, cradle: 'cradle-P1-1', room: 14.7 };
    expect(lines({ nearHeat: [near] })).toMatch(/\n {2}W2 {3}at 140 on P1, 15 mm from cradle-P1-1$/);
    const hand = { rms: 11.7, cut: 3, tilt: 10.2, clock: 4.9 };
    const told = lines({
      miss: [
        { primary: 'P1', hand, held: 7 },
        { primary: 'P2', hand, held: undefined },
      ],
    });
    expect(told).toMatch(/faces off by 0\.5 mm and 0\.5 deg, clocking by 0\.5 deg/);
    expect(told).toMatch(/P1 +11\.7 +7\n/);
    expect(told).toMatch(/P2 +11\.7 +-$/);
  });

  it('check ends its cut list with them, from the constants of the job, each shown or given', async () => {
    await inFolder(async (folder) => {
      const job = `${process.cwd()}/fixtures/by-hand-four/job.yaml`;
      const plain = await command(folder, 'check', job);
      expect(plain.code).toBe(0);
      expect(plain.out).toMatch(/shop\.fit_up +12 min\n/);
      expect(plain.out).toMatch(/shop\.hand\.tilt +0\.5 deg\n/);
      // Found by the integer program: 13 welds for 123.30, 14 for 105.30.
      expect(plain.out).toMatch(/1 weld more would save 18 in stock/);
      expect(plain.out).toMatch(/P1 +11\.7 +7\n/);
      const own = await command(
        folder,
        'check',
        job,
        ...[
          'shop.hand.tilt=0',
          'shop.hand.cut=0',
          'shop.hand.clock=0',
          'shop.fit_up=42',
          'shop.weld_price=20',
        ].flatMap((value) => ['--set', value]),
      );
      expect(own.out).not.toMatch(/shop\.fit_up/);
      // 13 welds, each 30 minutes more: 6 and a half hours.
      expect(plain.out).toMatch(/about 3 h 20 min of fit-up/);
      expect(own.out).toMatch(/about 9 h 50 min of fit-up/);
      expect(own.out).toMatch(/not worth it, at 20 \(shop\.weld_price\)/);
      expect(own.out).toMatch(/P1 +0 +0\n/);
    });
  });
});
