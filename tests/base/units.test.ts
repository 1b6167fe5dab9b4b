import { describe, expect, it } from 'vitest';
import {
  formatAngle,
  formatLength,
  readAngle,
  readCapacity,
  readLength,
  readNumber,
  readSpeed,
  type Reading,
} from '../../src/base/units.js';
import { tubeGauges } from '../../src/job/tables/gauges.js';

const value = (reading: Reading): number => ('value' in reading ? reading.value : NaN);
const fault = (reading: Reading): string => ('fault' in reading ? reading.fault : 'none');

describe('lengths against the exact inch (25.4 mm, international agreement of 1959)', () => {
  it.each([
    [92, 'mm', 92],
    [92, 'in', 2336.8],
    ['92', 'mm', 92],
    ['94mm', 'in', 94],
    ['94 mm', 'in', 94],
    ['3.5 cm', 'mm', 35],
    ['0.12 m', 'mm', 120],
    ['0.065 in', 'mm', 1.651],
    ['1-5/8 in', 'mm', 41.275],
    ['1 5/8"', 'mm', 41.275],
    ['1 5/8', 'in', 41.275],
    ['1-5/8in', 'mm', 41.275],
    ['5/16 in', 'mm', 7.9375],
    ['-1-1/8 in', 'mm', -28.575],
    ['\u22122.5 mm', 'mm', -2.5],
    ['+4 mm', 'mm', 4],
    ['1 inch', 'mm', 25.4],
    ["1''", 'mm', 25.4],
    ['2.4e1 mm', 'mm', 24],
    ['.5 in', 'mm', 12.7],
    ['10 MM', 'mm', 10],
    ['1\u2033', 'mm', 25.4],
  ] as const)('%s in a job in %s is %f mm', (given, unit, mm) => {
    expect(value(readLength(given, unit))).toBeCloseTo(mm, 9);
  });
});

describe('lengths that cannot be read say why, and what to write', () => {
  it.each([
    ['42,4', 'decimal comma', /42\.4/],
    ['1,998 mm', 'decimal comma', /1\.998 mm, or 1998 mm/],
    ['15/8 in', 'unreadable', /1-7\/8/],
    ['5/0 in', 'unreadable', /5\/8|1\/2/],
    ['about 40', 'unreadable', /number/],
    ['', 'unreadable', /94 mm/],
    ['94 furlong', 'unit', /94 mm/],
    ['65 thou', 'unit', /0\.065 in/],
    ['12 deg', 'unit', /mm or in/],
    ['92 4 mm', 'unit', /94 mm/],
    ['1 km', 'unit', /mm/],
    ['nan', 'not finite', /94 mm/],
    [NaN, 'not finite', /94 mm/],
    [Infinity, 'not finite', /94 mm/],
    ['1e999 mm', 'not finite', /94 mm/],
    [1e6, 'absurd', /decimal point or unit/],
    ['1000 m', 'absurd', /decimal point or unit/],
    [null, 'not a quantity', /94 mm/],
    [[1], 'not a quantity', /94 mm/],
    [true, 'not a quantity', /94 mm/],
    ['constructor', 'unreadable', /number/],
    ['5 constructor', 'unit', /94 mm/],
  ] as const)('%s: %s', (given, asked, fix) => {
    const reading = readLength(given, 'mm');
    expect(fault(reading)).toBe(asked);
    if ('fault' in reading) expect(reading.fix).toMatch(fix);
    if ('fault' in reading) expect(reading.reason.length).toBeGreaterThan(10);
  });
});

describe('gauges', () => {
  it('16 ga is a wall of 1.651 mm where the tube table is handed in (BWG)', () => {
    for (const text of ['16 ga', '16ga', '16 gauge', '16g', '16 BWG'])
      expect(value(readLength(text, 'mm', tubeGauges))).toBeCloseTo(1.651, 9);
  });

  it('refused for plate, with the reason that sheet gauges differ by material', () => {
    const reading = readLength('16 ga', 'mm');
    expect(fault(reading)).toBe('gauge');
    if ('fault' in reading) expect(reading.reason).toContain('1.52 mm in steel, 1.59 mm in stainless');
  });

  it('refused outside the table, and for another system', () => {
    expect(fault(readLength('9 ga', 'mm', tubeGauges))).toBe('gauge');
    expect(fault(readLength('16 swg', 'mm', tubeGauges))).toBe('gauge');
  });
});

describe('other quantities', () => {
  it.each([
    [12, 0.2094395102393195],
    ['12', 0.2094395102393195],
    ['12 deg', 0.2094395102393195],
    ['12°', 0.2094395102393195],
    ['0.2 rad', 0.2],
    ['-90 deg', -Math.PI / 2],
  ] as const)('angle %s is %f rad', (given, rad) => expect(value(readAngle(given))).toBeCloseTo(rad, 12));

  it('angles refuse lengths, slopes and more than two turns', () => {
    expect(fault(readAngle('12 mm'))).toBe('unit');
    expect(fault(readAngle('10 %'))).toBe('unit');
    expect(fault(readAngle(721))).toBe('absurd');
  });

  it('capacity: 2.0 l is 2000 cc, 61 ci is 999.611 cc (16.387064 cm3 to the cubic inch, exact)', () => {
    expect(value(readCapacity('2.0 l'))).toBeCloseTo(2000, 9);
    expect(value(readCapacity('1998 cc'))).toBe(1998);
    expect(value(readCapacity('61 ci'))).toBeCloseTo(61 * 16.387064, 9);
    expect(fault(readCapacity('2 gal'))).toBe('unit');
  });

  it('engine speed and plain numbers', () => {
    expect(value(readSpeed('7200 rpm'))).toBe(7200);
    expect(value(readSpeed(7200))).toBe(7200);
    expect(fault(readSpeed('120 Hz'))).toBe('unit');
    expect(value(readNumber('-0.5'))).toBe(-0.5);
    expect(fault(readNumber('0.5 mm'))).toBe('unit');
  });
});

it('lengths and angles are told in the job\u2019s own unit, tidily', () => {
  expect(formatLength(94, 'mm')).toBe('94 mm');
  expect(formatLength(0.1 + 0.2, 'mm')).toBe('0.3 mm');
  expect(formatLength(41.275, 'in')).toBe('1.625 in');
  expect(formatAngle(Math.PI / 15)).toBe('12 deg');
});
