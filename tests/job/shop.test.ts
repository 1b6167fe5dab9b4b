import { describe, expect, it } from 'vitest';
import { degrees } from '../../src/base/numbers.js';
import { readJob } from '../../src/job/index.js';
import { jobJsonSchema } from '../../src/job/json-schema.js';
import { readYaml } from '../../src/read/yaml.js';
import { misfits } from '../support/json-schema.js';
import { flangeJob, wholeJob } from '../support/jobs.js';

const whole = `shop: { weld_price: 12.5, fit_up: 20, travel: 60, bead: 4, deposition: 0.9, purge_flow: 8, purge_changes: 6,
  hand: { cut: 1, tilt: 1, clock: 2 }, cradle_place: 0.2, tape: 1, weld_off_wrench: 5 }\n`;

describe('the shop of a job', () => {
  it('every figure is read as given, and fits the schema for editors', () => {
    const text = wholeJob + whole;
    const { value, problems } = readJob(text);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(misfits(readYaml(text).value, jobJsonSchema())).toEqual([]);
    expect(value?.shop).toMatchObject({
      weldPrice: 12.5,
      welding: { fitUp: 20, travel: 60, beadSection: 4, deposition: 0.9, purgeFlow: 8, purgeChanges: 6 },
      cradlePlace: 0.2,
      weldOffWrench: 5,
      tape: { step: 1, unit: 'mm' },
    });
    const { cut, tilt, clock } = value?.shop.hand ?? { cut: 0, tilt: 0, clock: 0 };
    expect([cut, degrees(tilt), degrees(clock)].map((one) => one.toFixed(9))).toEqual(
      [1, 1, 2].map((one) => one.toFixed(9)),
    );
    expect(value?.defaults.filter(({ path }) => path.startsWith('shop.'))).toEqual([]);
  });

  it('what is not given is listed with what was taken, in a job that is sawn; the price of a weld has no default', () => {
    const { value } = readJob(wholeJob);
    const shown = value?.defaults.flatMap(({ path, value: taken }) =>
      path.startsWith('shop.') ? [`${path} ${taken}`] : [],
    );
    expect(shown).toEqual([
      'shop.fit_up 12 min',
      'shop.travel 45 mm/min',
      'shop.bead 3 mm2',
      'shop.deposition 0.95',
      'shop.purge_flow 5 l/min',
      'shop.purge_changes 8',
      'shop.hand.cut 0.5 mm',
      'shop.hand.tilt 0.5 deg',
      'shop.hand.clock 0.5 deg',
      'shop.cradle_place 0.3 mm',
      'shop.tape 0.5 mm',
      'shop.weld_off_wrench 2 mm',
    ]);
    expect(value?.shop.weldPrice).toBeUndefined();
    expect(readJob(flangeJob).value?.defaults.filter(({ path }) => path.startsWith('shop.'))).toEqual([]);
  });

  it.each([
    ['weld_price: 12.5', 'weld_price: -1', 'shop.weld_price'],
    ['fit_up: 20', 'fit_up: 601', 'shop.fit_up'],
    ['travel: 60', 'travel: 0', 'shop.travel'],
    ['bead: 4', 'bead: 51', 'shop.bead'],
    ['deposition: 0.9', 'deposition: 1.1', 'shop.deposition'],
    ['purge_flow: 8', 'purge_flow: 0', 'shop.purge_flow'],
    ['purge_changes: 6', 'purge_changes: 31', 'shop.purge_changes'],
    ['cut: 1', 'cut: 6', 'shop.hand.cut'],
    ['tilt: 1', 'tilt: 11', 'shop.hand.tilt'],
    ['clock: 2', 'clock: -1', 'shop.hand.clock'],
    ['cradle_place: 0.2', 'cradle_place: 5.1', 'shop.cradle_place'],
    ['tape: 1', 'tape: 5.1', 'shop.tape'],
    ['tape: 1', 'tape: -0.5', 'shop.tape'],
    ['weld_off_wrench: 5', 'weld_off_wrench: 61', 'shop.weld_off_wrench'],
  ])('%s -> %s is refused at its key', (from, to, path) => {
    const { value, problems } = readJob(wholeJob + whole.replace(from, to));
    expect(value).toBeUndefined();
    expect(problems.filter(({ severity }) => severity === 'error').map(({ place }) => place?.path)).toEqual([
      path,
    ]);
  });
});
