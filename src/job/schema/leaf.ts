import * as z from 'zod/mini';
import { type Code } from '../../base/codes/index.js';
import { radians, tidy } from '../../base/numbers.js';
import { suggest } from '../../base/suggest.js';
import {
  formatAngle,
  formatLength,
  readAngle,
  readCapacity,
  readLength,
  readNumber,
  readSpeed,
  type Fault,
  type LengthUnit,
  type Reading,
} from '../../base/units.js';
import { noted, shown } from './notes.js';

/** What is wrong with a value. `what` goes on from the key's path: `flange.thickness` + ` is -3 mm; ...`. */
export interface LeafFault {
  readonly code: Code;
  readonly what: string;
  readonly why: string;
  readonly fix: string;
}

/** A key's meaning (shown by editors and in messages) and its range: lengths mm, angles degrees. */
export interface Says {
  readonly says: string;
  readonly example?: string;
  /** Smallest and largest value allowed. */
  readonly low?: number;
  readonly high?: number;
  /** What goes wrong at the bench outside the range. */
  readonly why?: string;
}

export type Leaf<T> = z.ZodMiniType<T>;

const codeOf: Record<Fault, Code> = {
  'not a quantity': 'job/wrong-type',
  unreadable: 'job/not-a-number',
  'decimal comma': 'job/decimal-comma',
  unit: 'job/unit',
  gauge: 'job/gauge',
  'not finite': 'job/not-finite',
  absurd: 'job/out-of-range',
};

const NUMBER = String.raw`[+\-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+\-]?\d+)?`;
const FRACTION = String.raw`[+\-]?(?:\d+(?:\s*-\s*|\s+))?\d+/\d+`;
const LENGTH_UNITS = String.raw`mm|cm|m|in|inch|inches|"|''`;

const text = (units: string): object => ({
  type: 'string',
  pattern: String.raw`^\s*(?:${FRACTION}|${NUMBER})\s*(?:${units})?\s*$`,
});

/** How quantities are written as text, for the JSON Schema: a number and its unit. */
export const textForms = {
  length: text(LENGTH_UNITS),
  wall: text(`${LENGTH_UNITS}|ga|gauge|g|bwg`),
  angle: text('deg|degrees|°|rad'),
  capacity: text('cc|cm3|ccm|l|L|litre|litres|ci'),
  speed: text('rpm|rev/min|1/min'),
  number: text(''),
} as const;

/** A leaf of the schema from a function that reads it. */
function leaf<T>(read: (given: unknown) => { value: T } | LeafFault, says: Says, json: object): Leaf<T> {
  const schema = z.transform((given: unknown, context): T => {
    const found = read(given);
    if ('value' in found) return found.value;
    context.issues.push({ code: 'custom', input: given, params: { ...found }, continue: false });
    return z.NEVER;
  });
  return noted(schema as unknown as Leaf<T>, {
    description: says.says,
    ...(says.example === undefined ? {} : { example: says.example }),
    json: { ...json },
  });
}

const wrongType = (given: unknown, asked: string, example: string): LeafFault => ({
  code: 'job/wrong-type',
  what: `is ${shown(given)}; ${asked} is asked for`,
  why: 'it cannot be told which value is meant',
  fix: `write ${asked}, such as ${example}`,
});

/** A value that may say how it was come by; the reading of the file takes such brackets off beforehand. */
export const orGuessed = (...forms: object[]): { anyOf: object[] } => ({
  anyOf: [...forms, { $ref: '#/$defs/measured' }],
});

interface Quantity {
  readonly read: (given: unknown) => Reading;
  readonly show: (value: number) => string;
  /** From the numbers of a range to inside units. */
  readonly inside: (bound: number) => number;
  readonly text: keyof typeof textForms;
  readonly unitSaid: string;
}

function quantity(kind: Quantity, says: Says): Leaf<number> {
  const low = says.low === undefined ? undefined : kind.inside(says.low);
  const high = says.high === undefined ? undefined : kind.inside(says.high);
  const why = says.why ?? `it is ${says.says}, and nothing outside this range can be made or makes sense`;
  const read = (given: unknown): { value: number } | LeafFault => {
    const found = kind.read(given);
    if ('fault' in found) {
      const what =
        found.fault === 'not a quantity'
          ? `is ${shown(given)}; ${found.reason}`
          : `cannot be used: ${found.reason}`;
      const told =
        says.example !== undefined &&
        /^write \d|^start/.test(found.fix) &&
        !/comma|fraction/.test(found.reason);
      const example = told ? ` (${says.example ?? ''} is usual)` : '';
      return { code: codeOf[found.fault], what, why: `it is ${says.says}`, fix: `${found.fix}${example}` };
    }
    const { value } = found;
    if (low !== undefined && value < low) {
      return outside(
        `is ${kind.show(value)}; the least is ${kind.show(low)}`,
        why,
        `make it at least ${kind.show(low)}`,
      );
    }
    if (high !== undefined && value > high) {
      return outside(
        `is ${kind.show(value)}; the most is ${kind.show(high)}`,
        why,
        `make it at most ${kind.show(high)}, or check its unit`,
      );
    }
    return { value };
  };
  const sign =
    says.low === undefined
      ? {}
      : says.low > 0
        ? { exclusiveMinimum: 0 }
        : says.low === 0
          ? { minimum: 0 }
          : {};
  return leaf(
    read,
    { ...says, says: `${says.says} (${kind.unitSaid})` },
    orGuessed({ type: 'number', ...sign }, { $ref: `#/$defs/${kind.text}` }),
  );
}

const outside = (what: string, why: string, fix: string): LeafFault => ({
  code: 'job/out-of-range',
  what,
  why,
  fix,
});

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

/** A whole number. */
function count(says: Says): Leaf<number> {
  const { low = 0, high = 1000 } = says;
  const read = (given: unknown): { value: number } | LeafFault => {
    const value = typeof given === 'string' && /^\s*\d+\s*$/.test(given) ? Number(given) : given;
    if (typeof value !== 'number')
      return wrongType(given, 'a whole number', says.example ?? String(Math.max(low, 1)));
    if (!Number.isInteger(value) || value < low || value > high) {
      const why = says.why ?? `it is ${says.says}`;
      return {
        ...outside(
          `is ${String(value)}; whole numbers from ${low} to ${high} are possible`,
          why,
          `write a whole number from ${low} to ${high}`,
        ),
        ...(Number.isFinite(value) ? {} : { code: 'job/not-finite' as const }),
      };
    }
    return { value };
  };
  return leaf(read, says, orGuessed({ type: 'integer', minimum: low, maximum: high }));
}

/** One of a few words. */
function choice<const T extends string>(words: readonly T[], says: Says): Leaf<T> {
  const read = (given: unknown): { value: T } | LeafFault => {
    if (typeof given !== 'string') return wrongType(given, 'a word', words[0] ?? '');
    const value = words.find((word) => word === given.trim());
    if (value !== undefined) return { value };
    const meant = suggest(given, words);
    return {
      code: 'job/unknown-word',
      what: `is ${shown(given)}, which is none of its ${words.length} choices${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
      why: `it is ${says.says}`,
      fix: `write one of: ${words.join(', ')}`,
    };
  };
  return leaf(read, says, orGuessed({ enum: [...words] }));
}

/** Yes or no. */
function flag(says: Says): Leaf<boolean> {
  const words: Record<string, boolean> = { yes: true, on: true, no: false, off: false };
  const read = (given: unknown): { value: boolean } | LeafFault => {
    const value = typeof given === 'string' && Object.hasOwn(words, given) ? words[given] : given;
    return typeof value === 'boolean' ? { value } : wrongType(given, 'yes or no', 'yes');
  };
  return leaf(read, says, orGuessed({ enum: [true, false, 'yes', 'no', 'on', 'off'] }));
}

/** A name or other text. Numbers are taken as they are written: material 304. */
function word(says: Says & { readonly most?: number }): Leaf<string> {
  const most = says.most ?? 100;
  const read = (given: unknown): { value: string } | LeafFault => {
    const value = typeof given === 'number' && Number.isFinite(given) ? String(given) : given;
    if (typeof value !== 'string') return wrongType(given, 'a text', says.example ?? '"304"');
    // Control characters would break names, drawings and file headers.
    // eslint-disable-next-line no-control-regex
    if (value.trim() === '' || value.length > most || /[\u0000-\u001f\u007f]/.test(value)) {
      return outside(
        `is ${value.trim() === '' ? 'empty' : `a text of ${value.length} characters, or holds signs that no keyboard has`}`,
        `it is ${says.says}`,
        `write 1 to ${most} ordinary characters on 1 line`,
      );
    }
    return { value: value.trim() };
  };
  return leaf(read, says, orGuessed({ type: ['string', 'number'] }));
}

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
