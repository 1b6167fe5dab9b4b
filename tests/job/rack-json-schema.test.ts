import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readRack } from '../../src/job/index.js';
import { rackJsonSchema } from '../../src/job/json-schema.js';
import { readYaml } from '../../src/read/yaml.js';
import { misfits } from '../support/json-schema.js';

const schema = rackJsonSchema();
const check = (text: string): string[] => misfits(readYaml(text).value, schema);
const errorsOf = (text: string) => readRack(text).problems.filter(({ severity }) => severity === 'error');

const fixtures = new URL('../../fixtures/', import.meta.url);
const racks = readdirSync(fixtures).filter((name) => existsSync(new URL(`${name}/rack.yaml`, fixtures)));
const textOf = (name: string): string => readFileSync(new URL(`${name}/rack.yaml`, fixtures), 'utf8');

describe('the JSON Schema of a rack, for editors', () => {
  it('says which draft it is written in, and what it is of', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema.title).toBe('tackwright rack');
    expect(racks).toContain('hillclimb-four');
  });

  it.each(racks)('the rack of %s fits it, reads without an error, and names it to editors', (name) => {
    const text = textOf(name);
    expect(check(text)).toEqual([]);
    expect(errorsOf(text)).toEqual([]);
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=../../dist/rack.schema.json');
  });

  const good = textOf('hillclimb-four');
  it.each([
    ['tube: { od: 42.4, ', 'tube: { ', '.tube required od'],
    ['saw: { kerf: 2', 'saw: { curf: 2', '.saw additional curf'],
    ['saw: { kerf: 2', 'saw: { kerf: -2', '.saw.kerf anyOf'],
    ['clr: 63.6', 'clr: wide', '.bends.1.clr anyOf'],
    [
      'angle: 180, legs: [100, 100], price: 14.30',
      'angle: half, legs: [100, 100], price: 14.30',
      '.bends.0.angle anyOf',
    ],
    ['legs: [100, 100], price: 14.30', 'legs: [100], price: 14.30', '.bends.0.legs anyOf'],
    ['price: 14.30, ', '', '.bends.0 required price'],
    ['price: 18.00, quantity: unlimited', 'price: 18.00, quantity: plenty', '.straights.0.quantity anyOf'],
    ['straights:', 'strights:', ' additional strights'],
    ['offcuts: []', 'offcuts: [{ width: 300 }]', '.offcuts.0 anyOf'],
  ])('broken, %s -> %s, it does not fit, and is not read either', (from, to, misfit) => {
    const text = good.replace(from, to);
    expect(text).not.toBe(good);
    expect(check(text)).toEqual([misfit]);
    expect(errorsOf(text).length).toBeGreaterThan(0);
  });

  it.each([
    ['clr: 63.6', 'clr: 2-1/2 in'],
    ['clr: 63.6', 'clr: { value: 63.1, how: measured }'],
    ['price: 18.00, quantity: unlimited', 'price: 18.00, quantity: 3'],
    ['offcuts: []', 'offcuts: [{ length: 300 }, { clr: 63.6, angle: 80, legs: [0, 70] }]'],
    ['saw: { kerf: 2, dress: 0.5, raw_trim: 3 }\n', ''],
  ])('%s -> %s fits, and is read', (from, to) => {
    const text = good.replace(from, to);
    expect(text).not.toBe(good);
    expect(check(text)).toEqual([]);
    expect(errorsOf(text)).toEqual([]);
  });
});
