import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { pageOf } from '../../src/base/codes/index.js';
import { rackFits, readJob, readRack } from '../../src/job/index.js';
import { flangeJob } from '../support/jobs.js';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

const whole = `units: mm
tube: { od: 42.4, wall: 1.6, material: "304" }
saw: { kerf: 2, dress: 0.5, raw_trim: 3 }
bends:
  - { clr: 63.6, angle: 180, legs: [100, 80], price: 16.90, quantity: unlimited }
  - { clr: { value: 84.4, how: measured }, angle: 90, legs: [0, 1-5/8 in], price: 9, quantity: 4 }
straights:
  - { length: 1000, price: 18.00, quantity: unlimited }
offcuts:
  - { clr: 63.6, angle: 77.5, legs: [40, 0] }
  - { length: 312, quantity: 2 }
`;

/** The problems of a rack file in which one text is put in place of another. */
const told = (from: string, to: string) => {
  expect(whole).toContain(from);
  return readRack(whole.replace(from, to), { file: 'rack.yaml' }).problems;
};

describe('the rack file', () => {
  it('comes out in mm and rad, offcuts behind what can be bought, each with its key', () => {
    const { value, problems } = readRack(whole);
    expect(problems).toEqual([]);
    expect(
      value?.bends.map(({ path, clr, legs, price, quantity }) => [path, clr, legs, price, quantity]),
    ).toEqual([
      ['bends.0', 63.6, [100, 80], 16.9, Infinity],
      ['bends.1', 84.4, [0, 41.275], 9, 4],
      ['offcuts.0', 63.6, [40, 0], 0, 1],
    ]);
    expect(value?.bends[2]?.angle).toBeCloseTo(radians(77.5), 12);
    expect(value?.straights).toEqual([
      { path: 'straights.0', length: 1000, price: 18, quantity: Infinity },
      { path: 'offcuts.1', length: 312, price: 0, quantity: 2 },
    ]);
    expect(value?.saw).toEqual({ kerf: 2, dress: 0.5, rawTrim: 3 });
  });

  it('in inches: 2.5 in is 63.5 mm, 16 ga is 1.651 mm (BWG 0.065 in), and the saw has its defaults in mm', () => {
    const { value } = readRack(
      'units: in\ntube: { od: 1-5/8, wall: 16 ga }\nbends: [{ clr: 2.5, angle: 90 deg, legs: [4, 4], price: 9 }]',
    );
    expect(value?.tube).toEqual({ od: 41.275, wall: 0.065 * 25.4, material: '304' });
    expect(value?.bends[0]?.clr).toBeCloseTo(63.5, 12);
    expect(value?.bends[0]?.legs[0]).toBeCloseTo(101.6, 12);
    expect(value?.saw).toEqual({ kerf: 2, dress: 0.5, rawTrim: 3 });
    expect(value?.defaults.map(({ path }) => path)).toEqual([
      'tube.material',
      'saw.kerf',
      'saw.dress',
      'saw.raw_trim',
    ]);
  });

  const racks = [
    ...readdirSync(new URL('../routing-cases/', import.meta.url), { withFileTypes: true })
      .filter((one) => one.isDirectory())
      .map((one) => `tests/routing-cases/${one.name}`),
    'fixtures/hillclimb-four',
  ];
  it.each(racks)('of %s reads without a word, and fits its job', (folder) => {
    const rack = readRack(read(`${folder}/rack.yaml`));
    expect(rack.problems).toEqual([]);
    expect(rack.value?.bends.length).toBe(3);
    expect(rack.value?.bends.every(({ angle }) => Math.abs(angle - Math.PI) < 1e-12)).toBe(true);
    const job = readJob(read(`${folder}/job.yaml`)).value;
    if (!job || !rack.value) throw new Error('job or rack did not read');
    expect(rackFits(job, rack.value)).toEqual([]);
  });

  it.each([
    ['kerf: 2', 'kerf: -1', 'job/out-of-range', 'saw.kerf', 3],
    ['kerf: 2', 'kerf: "2,5 mm"', 'job/decimal-comma', 'saw.kerf', 3],
    ['kerf:', 'kerv:', 'job/unknown-key', 'saw.kerv', 3],
    ['angle: 180', 'angle: 200', 'job/out-of-range', 'bends.0.angle', 5],
    ['price: 16.90', 'price: cheap', 'job/not-a-number', 'bends.0.price', 5],
    ['price: 16.90', 'price: -1', 'job/out-of-range', 'bends.0.price', 5],
    ['quantity: 4', 'quantity: 2.5', 'job/out-of-range', 'bends.1.quantity', 6],
    ['legs: [100, 80]', 'legs: [100]', 'job/wrong-count', 'bends.0.legs', 5],
    ['legs: [100, 80]', 'legs: [100, .inf]', 'job/not-finite', 'bends.0.legs.1', 5],
    ['clr: 63.6, angle: 180', 'clr: 20, angle: 180', 'rack/tight-bend', 'bends.0.clr', 5],
    ['legs: [40, 0]', 'legs: [40, 2]', 'rack/leg-lost', 'offcuts.0.legs.1', 10],
    ['length: 312', 'length: 24', 'rack/short-straight', 'offcuts.1.length', 11],
    ['od: 42.4, wall: 1.6', 'od: 22, wall: 12', 'rack/thick-wall', 'tube.wall', 2],
    ['od: 42.4, ', '', 'job/missing-key', 'tube.od', 2],
    ['straights:', 'sticks:', 'job/unknown-key', 'sticks', 7],
  ] as const)('%s -> %s is told as %s at %s, line %i', (from, to, code, path, line) => {
    const found = told(from, to).find((p) => p.code === code);
    expect([found?.place?.path, found?.place?.line]).toEqual([path, line]);
    expect(found?.fix).toMatch(/\d/);
    expect(pageOf(code).exit).toBe(2);
  });

  it('speaks of a rack, not of a job, where a key is unknown; and an empty file is an empty rack', () => {
    const unknown = told('straights:', 'sticks:').find((p) => p.code === 'job/unknown-key');
    expect(unknown?.what).toMatch(/^a rack has no key "sticks"/);
    expect(readRack('').problems.map((p) => p.code)).toEqual(['rack/empty']);
    expect(readRack('tube: { od: 42.4, wall: 1.6 }').problems.map((p) => p.code)).toEqual(['rack/empty']);
    expect(readRack('tube: { od: 42.4, wall: 1.6 }').value).toBe(undefined);
  });
});

describe("the rack's tube against the job's", () => {
  const jobWith = (tube: string) => {
    const job = readJob(`${flangeJob}tube: ${tube}\n`).value;
    if (!job) throw new Error('the job did not read');
    return job;
  };
  const rack = readRack(whole, { file: 'rack.yaml' });
  const misfits = (tube: string) =>
    rack.value
      ? rackFits(jobWith(tube), rack.value, rack.locate).map((p) => [p.code, p.place?.path, p.place?.line])
      : [];

  it('fits by size and by any name of the material (EN 1.4301 is 304)', () => {
    expect(misfits('{ od: 42.4, wall: 1.6, material: "1.4301" }')).toEqual([]);
    expect(misfits('{ od: 42.44, wall: 16 ga, material: 304L }')).toEqual([
      ['rack/other-tube', 'tube.wall', 2],
    ]);
  });

  it('does not fit in diameter, wall or material: each told at its key in the rack', () => {
    expect(misfits('{ od: 45, wall: 2, material: mild steel }')).toEqual([
      ['rack/other-tube', 'tube.od', 2],
      ['rack/other-tube', 'tube.wall', 2],
      ['rack/other-tube', 'tube.material', 2],
    ]);
  });
});
