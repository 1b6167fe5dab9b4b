import type { Code } from '../../base/codes/index.js';
import type { Fault, Reading } from '../../base/units.js';
import { leaf, orGuessed, outside, type Leaf, type LeafFault, type Says } from './leaf-base.js';
import { shown } from './notes.js';

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

/** A kind of quantity: how it is read, shown and written. */
export interface Quantity {
  readonly read: (given: unknown) => Reading;
  readonly show: (value: number) => string;
  /** From the numbers of a range to inside units. */
  readonly inside: (bound: number) => number;
  readonly text: keyof typeof textForms;
  readonly unitSaid: string;
}

/** A number with a unit, within its range. */
export function quantity(kind: Quantity, says: Says): Leaf<number> {
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
