import { radians, tidy } from '../../base/numbers.js';
import {
  formatAngle,
  formatLength,
  readAngle,
  readCapacity,
  readLength,
  readNumber,
  readSpeed,
  type LengthUnit,
} from '../../base/units.js';
import type { Leaf, Says } from './leaf-base.js';
import { quantity } from './quantities.js';
import { choice, count, flag, word } from './words.js';

/** The kinds of leaf a job is made of. */
export interface Leaves {
  readonly length: (says: Says) => Leaf<number>;
  readonly wall: (says: Says, gauges: Readonly<Record<number, number>>) => Leaf<number>;
  readonly angle: (says: Says) => Leaf<number>;
  readonly capacity: (says: Says) => Leaf<number>;
  readonly speed: (says: Says) => Leaf<number>;
  readonly number: (says: Says) => Leaf<number>;
  readonly count: (says: Says) => Leaf<number>;
  readonly choice: typeof choice;
  readonly flag: (says: Says) => Leaf<boolean>;
  readonly word: (says: Says & { readonly most?: number }) => Leaf<string>;
}

/** The kinds of leaf, for a job whose bare lengths are in `unit`. */
export function leaves(unit: LengthUnit): Leaves {
  const mm = {
    read: (given: unknown) => readLength(given, unit),
    show: (v: number) => formatLength(v, unit),
    inside: (v: number) => v,
  };
  const said = "in the job's unit, or with its own: 94 mm, 1-5/8 in";
  const degrees = {
    read: readAngle,
    show: formatAngle,
    inside: radians,
    text: 'angle' as const,
    unitSaid: 'degrees, or 0.2 rad',
  };
  const plain = { show: (v: number) => tidy(v, 6), inside: (v: number) => v };
  return {
    length: (says) => quantity({ ...mm, text: 'length', unitSaid: said }, says),
    wall: (says, gauges) =>
      quantity(
        {
          ...mm,
          read: (given) => readLength(given, unit, gauges),
          text: 'wall',
          unitSaid: `${said}, or a BWG tube gauge: 16 ga`,
        },
        says,
      ),
    angle: (says) => quantity(degrees, says),
    capacity: (says) =>
      quantity(
        {
          ...plain,
          read: readCapacity,
          text: 'capacity',
          unitSaid: 'cc, or 2.0 l',
          show: (v) => `${tidy(v)} cc`,
        },
        says,
      ),
    speed: (says) =>
      quantity(
        {
          ...plain,
          read: readSpeed,
          text: 'speed',
          unitSaid: 'rpm',
          show: (v) => `${tidy(v)} rpm`,
        },
        says,
      ),
    number: (says) =>
      quantity({ ...plain, read: readNumber, text: 'number', unitSaid: 'a plain number' }, says),
    count,
    choice,
    flag,
    word,
  };
}
