import type * as z from 'zod/mini';
import type { LengthUnit } from '../base/units.js';
import { leaves, type Leaves } from './schema/leaf.js';
import { either, fixed, list, maybe, section } from './schema/shapes.js';
import { tubeSection } from './schema/tubes.js';

const price = (l: Leaves) =>
  l.number({ says: 'what one of it costs, in any one currency', low: 0, high: 1e6, example: '17.50' });

/** How many there are: a whole number, or unlimited. */
const quantity = (l: Leaves) =>
  either(
    'how many there are, or unlimited',
    [
      l.count({ says: 'how many there are', low: 0, high: 10_000, example: '4' }),
      l.choice(['unlimited'], { says: 'unlimited where it can be bought at any time' }),
    ],
    'unlimited',
  );

const bendKeys = (l: Leaves) => {
  const leg = (which: string) =>
    l.length({ says: `the straight ${which} the arc, from the tangent point`, low: 0, high: 3000 });
  return {
    clr: l.length({ says: 'the radius of its centre line, measured', low: 5, high: 1000, example: '63.6' }),
    angle: l.angle({ says: 'how far it turns the tube', low: 1, high: 180, example: '180' }),
    legs: fixed('its legs, at end A and at end B', [leg('before'), leg('behind')], '[100, 100]'),
  };
};

const straightKeys = (l: Leaves) => ({
  length: l.length({ says: 'its length', low: 10, high: 20_000, example: '1000' }),
});

const bought = (l: Leaves) => ({ price: price(l), quantity: maybe(quantity(l)) });
const onHand = (l: Leaves) => ({ price: maybe(price(l)), quantity: maybe(quantity(l)) });

const allowance = (l: Leaves, says: string, high: number, example: string) =>
  maybe(l.length({ says, low: 0, high, example }));

const makers = {
  units: (l: Leaves) => l.choice(['mm', 'in'], { says: 'the unit of bare lengths', example: 'mm' }),
  tube: tubeSection,
  saw: (l: Leaves) =>
    section('what the saw takes away', {
      kerf: allowance(l, 'the width of its cut', 10, '2'),
      dress: allowance(l, 'ground off each sawn face', 5, '0.5'),
      raw_trim: allowance(l, 'cut off each raw end before it is used', 100, '3'),
    }),
  bends: (l: Leaves) => list('mandrel bends', section('a mandrel bend', { ...bendKeys(l), ...bought(l) })),
  straights: (l: Leaves) =>
    list('straight tube', section('a straight', { ...straightKeys(l), ...bought(l) })),
  offcuts: (l: Leaves) =>
    list(
      'what is left over from other jobs',
      either(
        'a bend left over { clr, angle, legs }, or a straight left over { length }',
        [
          section('a bend left over', { ...bendKeys(l), ...onHand(l) }),
          section('a straight left over', { ...straightKeys(l), ...onHand(l) }),
        ],
        '{ length: 300 }',
      ),
    ),
};

type SectionName = keyof typeof makers;

export const rackSectionNames = Object.keys(makers) as SectionName[];

/** A rack without its tube would fit any job, and be wrong for most. */
export const rackNeeds: readonly SectionName[] = ['tube'];

/** The sections of a rack as written, in mm and rad; one that is left out or has a fault is absent. */
export type RackSections = { readonly [K in SectionName]?: z.output<ReturnType<(typeof makers)[K]>> };

export const rackSectionSchema = (name: SectionName, unit: LengthUnit): z.core.$ZodType =>
  makers[name](leaves(unit));

export const rackSchema = (unit: LengthUnit): z.core.$ZodType =>
  section(
    'what can be bought or lies on hand',
    Object.fromEntries(
      rackSectionNames.map((name) => {
        const one = rackSectionSchema(name, unit);
        return [name, rackNeeds.includes(name) ? one : maybe(one)];
      }),
    ),
  );
