import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { tuningAdvice } from '../../../src/design/tuning/advice.js';
import { boreAtSpeed, ruleOf21 } from '../../../src/design/tuning/bore.js';
import { ruleOf850, thereAndBack, waveSpeed } from '../../../src/design/tuning/length.js';
import { readJob } from '../../../src/job/index.js';
import { command } from '../../support/command.js';

const adviceOf = (engine: string, more = '') => {
  const { value, problems } = readJob(
    `job: bench\nunits: mm\nengine: ${engine}\nports: { each: [{ at: [0, 0, 0], direction: [0, 0, 1] }] }\ntube: { od: 42.4, wall: 1.6 }\n${more}`,
  );
  if (value === undefined) throw new Error(JSON.stringify(problems));
  return tuningAdvice(value);
};
const four = '{ cylinders: 4, capacity: 1800 cc, tuned_for: 6500 rpm, exhaust_opens: 70 }';

describe('speed of waves and their way', () => {
  it.each([
    // US Standard Atmosphere as tabled in a mechanical engineers' handbook: 340.3 at 15 C.
    [1.4, 287.053, 15, 340.3],
    // sqrt(gamma R T) worked by hand.
    [1.3, 290, 400, 503.8],
    [1.33, 287.05, 500, 543.3],
    [1.4, 287.05, 700, 625.4],
  ])('gamma %d, R %d, %d C: %d m/s more gamma and R', (gamma, constant, celsius, speed) => {
    expect(Math.abs(waveSpeed(gamma, constant, celsius) - speed)).toBeLessThan(0.1);
  });

  it.each([
    // A textbook exercise (85 degrees there and back at 330 m/s): answers worked from t = 2 L / c.
    [2000, 1168.75],
    [3000, 779.167],
    [4000, 584.375],
  ])('85 degrees at %d rev/min and 330 m/s: %d mm', (rpm, length) => {
    expect(thereAndBack(330, radians(85), rpm)).toBeCloseTo(length, 2);
  });

  it('half a period of the quarter wave is the way there and back: 0.8 m, 520 m/s, 162.5 Hz, 120 degrees', () => {
    // f = a / (4 L), textbook acoustics; at 6500 rev/min the crank turns 39000 degrees a second.
    const angle = radians(39000 / (2 * 162.5));
    expect(thereAndBack(520, angle, 6500)).toBeCloseTo(800, 9);
  });
});

describe('rules of the handbooks', () => {
  it.each([
    // P = 850 ED / N - 3 inches, "Four-Stroke Performance Tuning", formula from memory, worked by hand.
    [80, 7500, 672.3],
    [70, 6500, 754.2],
    [60, 5500, 865.9],
  ])('850: valve opening %d before bottom, %d rev/min: %d mm', (opens, rpm, length) => {
    expect(Math.abs(ruleOf850(radians(opens), rpm, 3) - length)).toBeLessThan(0.2);
  });

  it('850 is a wave of 259 m/s back at top dead centre, or one of 518 m/s back half way: a factor of two', () => {
    const rule = ruleOf850(radians(70), 6500, 0);
    expect(thereAndBack(259.08, radians(250), 6500)).toBeCloseTo(rule, 6);
    expect(thereAndBack(518.16, radians(125), 6500)).toBeCloseTo(rule, 6);
  });

  it('bore of 450 cc: 2.1 sqrt(cc / (25 (P + 3))) at 672.3 mm is 41.69 mm (the same book, from memory)', () => {
    expect(Math.abs(ruleOf21(450, 26.467 * 25.4) - 41.69)).toBeLessThan(0.02);
  });

  it('bore of 450 cc at 6000 rev/min by 88,200 (245 ft/s), a magazine article: 39.173 mm', () => {
    expect(Math.abs(boreAtSpeed(450, 6000, 245 * 0.3048) - 39.173)).toBeLessThan(0.01);
    // A = V N / (30 v), in SI: 1205.21 mm2.
    const area = (Math.PI / 4) * boreAtSpeed(450, 6000, 74.676) ** 2;
    expect(Math.abs(area - 1205.21)).toBeLessThan(0.05);
  });
});

describe('advice for a job', () => {
  it('a band a formula, the job against all of them', () => {
    const advice = adviceOf(four, 'length: { between: [700, 800] }');
    if (!advice) throw new Error('no advice');
    // 250 degrees at 6500: 503.8 and 625.4 m/s run 1614.7 and 2004.5 mm; the rule 754.2, and 830.4 with nothing off.
    const told = advice.lengths.map(({ low, high }) => [Math.round(low), Math.round(high)]);
    expect(told).toEqual([
      [1615, 2004],
      [807, 1002],
      [754, 830],
    ]);
    expect(advice.apart).toBeCloseTo((1614.7 + 2004.5) / (754.2 + 830.4), 2);
    expect(advice.window?.standing).toBe('partly within');
    // 450 cc at 6500: 88,200 is 245 ft/s; 260 and 240 give 39.58 and 41.20 mm.
    const [speed, rule] = advice.bores;
    expect(speed?.low).toBeCloseTo(39.173 * Math.sqrt((6500 / 6000) * (245 / 260)), 1);
    expect(speed?.high).toBeCloseTo(39.173 * Math.sqrt((6500 / 6000) * (245 / 240)), 1);
    // P + 3 = 850 x 250 / 6500 = 32.692 in: 2.1 sqrt(450 / 817.3) = 1.5582 in.
    expect(rule?.low).toBeCloseTo(1.5582 * 25.4, 1);
    expect(advice.tube?.bore).toBeCloseTo(39.2, 9);
    expect(advice.tube?.standing).toBe('below');
  });

  it.each([
    ['[800, 900]', 'within'],
    ['[400, 700]', 'below'],
    ['[2100, 2200]', 'above'],
  ])('a length of %s is %s', (between, standing) => {
    expect(adviceOf(four, `length: { between: ${between} }`)?.window?.standing).toBe(standing);
  });

  it('without the valve opening it is assumed, told, and the bands are wider', () => {
    const given = adviceOf(four);
    const assumed = adviceOf('{ cylinders: 4, capacity: 1800 cc, tuned_for: 6500 rpm }');
    expect(assumed?.assumed[0]).toContain('60 to 80 deg');
    expect(assumed?.assumed[0]).toContain('engine.exhaust_opens is not given');
    expect(given?.assumed[0]).toMatch(/opens 70 deg before bottom dead centre$/);
    expect(assumed?.length.low).toBeLessThan(given?.length.low ?? 0);
    expect(assumed?.length.high).toBeGreaterThan(given?.length.high ?? Infinity);
  });

  it('nothing without capacity or speed; a valve that opens 140 degrees early is refused', () => {
    expect(adviceOf('{ cylinders: 4, capacity: 1800 cc }')).toBeUndefined();
    expect(adviceOf('{ cylinders: 4, tuned_for: 6500 rpm }')).toBeUndefined();
    expect(() => adviceOf(four.replace('70', '140'))).toThrow('job/out-of-range');
  });

  it('check tells it with what is assumed, and that a dynamometer decides; as JSON too', async () => {
    const settings = ['cylinders=3', 'capacity=1350', 'tuned_for=6500', 'exhaust_opens=70'];
    const order = ['check', 'fixtures/three-cylinder/job.yaml'];
    const set = settings.flatMap((setting) => ['--set', `engine.${setting}`]);
    const { out } = await command('.', ...order, ...set);
    expect(out).toContain('Length and bore, as the books have it');
    expect(out).toMatch(/handbook rule of 850 +754 to 830 mm/);
    expect(out).toContain('a dynamometer decides');
    const { tuning } = JSON.parse((await command('.', ...order, ...set, '--json')).out) as {
      tuning: { length: { low: number } };
    };
    expect(Math.abs(tuning.length.low - 754.2)).toBeLessThan(0.2);
  });
});
