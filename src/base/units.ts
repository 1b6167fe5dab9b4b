import { degrees, radians, tidy } from './numbers.js';

/** The unit that bare numbers of a job are in. */
export type LengthUnit = 'mm' | 'in';

/** What is the matter with a quantity that could not be read. */
export type Fault =
  'not a quantity' | 'unreadable' | 'decimal comma' | 'unit' | 'gauge' | 'not finite' | 'absurd';

/** A quantity read, or why it could not be, with the smallest change that cures it. */
export type Reading =
  { readonly value: number } | { readonly fault: Fault; readonly reason: string; readonly fix: string };

/** Millimetres in an inch, exact by definition (international yard and pound agreement, 1959). */
export const INCH = 25.4;

/** No length of a header comes near this (mm): what is longer has lost its unit or its decimal point. */
const LONGEST = 20_000;

/** Times a factor. */
const by =
  (factor: number) =>
  (value: number): number =>
    value * factor;

/** What a kind of quantity is called, what its units are worth, and the largest that makes sense. */
interface Kind {
  readonly called: string;
  readonly units: Readonly<Record<string, (value: number) => number>>;
  /** Units that people do write but that are not read here, with what to write instead. */
  readonly refused: Readonly<Record<string, string>>;
  readonly most: number;
  readonly example: string;
}

const lengths: Kind = {
  called: 'a length',
  units: {
    mm: by(1),
    cm: by(10),
    m: by(1000),
    in: by(INCH),
    inch: by(INCH),
    inches: by(INCH),
    '"': by(INCH),
    "''": by(INCH),
  },
  refused: {
    ft: 'inches: 1 ft is 12 in',
    "'": 'inches: 1 ft is 12 in',
    thou: 'inches: 65 thou is 0.065 in',
    mil: 'inches: 65 mil is 0.065 in',
    um: 'mm: 1000 um is 1 mm',
    km: 'mm or in',
    deg: 'mm or in: a length is asked for here, not an angle',
    rad: 'mm or in: a length is asked for here, not an angle',
  },
  most: LONGEST,
  example: '94 mm, 3.5 cm, 0.065 in or 1-5/8 in',
};

const angles: Kind = {
  called: 'an angle',
  units: { deg: radians, degrees: radians, '°': radians, rad: by(1) },
  refused: {
    mm: 'degrees: an angle is asked for here, not a length',
    in: 'degrees: an angle is asked for here, not a length',
    '%': 'degrees: a fall of 10 % is 5.7 deg',
  },
  most: 4 * Math.PI,
  example: '12, 12 deg or 0.2 rad',
};

const capacities: Kind = {
  called: 'a capacity',
  units: {
    cc: by(1),
    cm3: by(1),
    ccm: by(1),
    l: by(1000),
    litre: by(1000),
    litres: by(1000),
    ci: by(INCH ** 3 / 1000),
  },
  refused: {},
  most: 100_000,
  example: '1998 cc or 2.0 l',
};

const speeds: Kind = {
  called: 'an engine speed',
  units: { rpm: by(1), 'rev/min': by(1), '1/min': by(1) },
  refused: { 'rad/s': 'rpm', hz: 'rpm: 1 Hz is 60 rpm' },
  most: 50_000,
  example: '7200 or 7200 rpm',
};

const numbers: Kind = {
  called: 'a plain number',
  units: { '': by(1) },
  refused: {},
  most: 1e9,
  example: '0.5',
};

const NUMBER =
  /^([+-]?)(?:(\d+)(?:\s*-\s*|\s+)(\d+)\/(\d+)|(\d+)\/(\d+)|((?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?))/i;

const fail = (fault: Fault, reason: string, fix: string): Reading => ({ fault, reason, fix });

/** Typographers' signs brought to those of a keyboard. */
const plain = (text: string): string =>
  text
    .trim()
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u2033\u201d]/g, '"')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\u00ba/g, '°');

/** Reads the number in front; gives back what is left behind it. */
function numberIn(text: string): { value: number; rest: string } | Reading {
  const found = NUMBER.exec(text);
  if (!found) return fail('unreadable', `"${text}" does not start with a number`, 'start with the number');
  const rest = text.slice(found[0].length).trim();
  const sign = found[1] === '-' ? -1 : 1;
  const numerator = found[3] ?? found[5];
  const denominator = Number(found[4] ?? found[6]);
  if (numerator === undefined) return { value: sign * Number(found[7]), rest };
  if (denominator === 0)
    return fail('unreadable', `"${text}" divides by zero`, 'write 1/2, 5/8 and the like');
  if (Number(numerator) >= denominator) {
    const whole = Math.floor(Number(numerator) / denominator);
    const left = Number(numerator) - whole * denominator;
    const proper = left === 0 ? String(whole) : `${whole}-${left}/${denominator}`;
    // 15/8 may be 1-7/8, or 1 5/8 with its space lost.
    const [first, ...others] = numerator;
    const spaced = Number(others.join('')) > 0 && Number(others.join('')) < denominator;
    const lost = spaced ? `, or ${first ?? ''}-${others.join('')}/${denominator} if a space was lost` : '';
    return fail(
      'unreadable',
      `the fraction in "${text}" is a whole or more`,
      `write ${proper} for ${tidy(Number(numerator) / denominator, 4)}${lost}`,
    );
  }
  return { value: sign * (Number(found[2] ?? 0) + Number(numerator) / denominator), rest };
}

/** A decimal comma is common where metric tapes are, and would be read as a list or a thousands mark. */
function commaIn(text: string): Reading | undefined {
  const found = /(\d+),(\d+)/.exec(text);
  if (!found) return undefined;
  const [all, whole, part] = found as unknown as [string, string, string];
  const point = text.replace(all, `${whole}.${part}`);
  const fix =
    part.length === 3
      ? `write ${point}, or ${text.replace(all, whole + part)} if it parts thousands`
      : `write ${point}`;
  return fail('decimal comma', `"${text}" has a comma in its number`, fix);
}

function readQuantity(given: unknown, kind: Kind, bare: string): Reading {
  const asNumber = typeof given === 'number';
  if (!asNumber && typeof given !== 'string') {
    return fail(
      'not a quantity',
      `${kind.called} is asked for here`,
      `write a number, such as ${kind.example}`,
    );
  }
  let value: number;
  let unit = bare;
  if (asNumber) value = given;
  else {
    const text = plain(given);
    if (text === '') return fail('unreadable', 'there is nothing in the quotes', `write ${kind.example}`);
    if (/^[+-]?\.?(nan|inf(inity)?)$/i.test(text))
      return fail('not finite', `"${text}" is not a size`, `write ${kind.example}`);
    const comma = commaIn(text);
    if (comma) return comma;
    const found = numberIn(text);
    if ('fault' in found || !('rest' in found)) return found;
    value = found.value;
    if (found.rest !== '') unit = found.rest.toLowerCase();
  }
  const inside = kind.units[unit];
  if (inside === undefined || !Object.hasOwn(kind.units, unit)) {
    const instead = Object.hasOwn(kind.refused, unit) ? kind.refused[unit] : undefined;
    if (instead !== undefined)
      return fail('unit', `"${String(given)}" is in a unit that is not read here`, `write it in ${instead}`);
    return fail(
      'unit',
      `"${unit}" in "${String(given)}" is no unit of ${kind.called}`,
      `write ${kind.example}`,
    );
  }
  if (!Number.isFinite(value))
    return fail('not finite', `${String(given)} is not a size`, `write ${kind.example}`);
  const size = inside(value);
  if (Math.abs(size) > kind.most) {
    return fail(
      'absurd',
      `${String(given)} is beyond anything on an engine`,
      `look for a lost decimal point or unit: ${kind.example}`,
    );
  }
  return { value: size };
}

/**
 * A length in mm from a number (in the job's unit) or a text with its own unit: `94 mm`, `1-5/8 in`, `1 5/8"`.
 * `16 ga` is read only where the caller hands in a table of gauges (mm by gauge number): tube walls are BWG,
 * while sheet gauges differ from material to material (16 gauge: 1.519 mm steel, 1.588 mm stainless), so a
 * plate must be measured. Negative lengths are read; whether they make sense is for the caller to say.
 */
export function readLength(
  given: unknown,
  unit: LengthUnit,
  gauges?: Readonly<Record<number, number>>,
): Reading {
  const gauge = typeof given === 'string' ? /^(\d+)\s*(?:ga|gauge|g|bwg|swg)\.?$/i.exec(given.trim()) : null;
  if (!gauge) return readQuantity(given, lengths, unit);
  const number = Number(gauge[1]);
  if (!gauges) {
    return fail(
      'gauge',
      `"${String(given)}" is a gauge, and sheet gauges differ by material (16 gauge is 1.52 mm in steel, 1.59 mm in stainless)`,
      'measure the plate and write it in mm or in, such as 9.5 mm or 3/8 in',
    );
  }
  if (/swg/i.test(String(given))) {
    return fail(
      'gauge',
      `"${String(given)}": tube walls are read in BWG only`,
      'measure the wall and write it, such as 1.63 mm',
    );
  }
  const wall = gauges[number];
  if (wall === undefined) {
    const known = Object.keys(gauges);
    return fail(
      'gauge',
      `there is no ${number} gauge in the tube table (${known[0]} to ${known.at(-1)})`,
      'measure the wall and write it, such as 1.65 mm (16 ga)',
    );
  }
  return { value: wall };
}

/** An angle in rad from degrees (a bare number), `12 deg` or `0.2 rad`; at most two turns. */
export const readAngle = (given: unknown): Reading => readQuantity(given, angles, 'deg');

/** An engine's capacity in cm3 from cc (a bare number), `1998 cc`, `2.0 l` or `122 ci`. */
export const readCapacity = (given: unknown): Reading => readQuantity(given, capacities, 'cc');

/** An engine speed in rev/min from a bare number or `7200 rpm`. */
export const readSpeed = (given: unknown): Reading => readQuantity(given, speeds, 'rpm');

/** A number without a unit. */
export const readNumber = (given: unknown): Reading => readQuantity(given, numbers, '');

/** A length (mm) as the user reads it, in the job's own unit: `94 mm`, `3.701 in`. */
export const formatLength = (length: number, unit: LengthUnit): string =>
  unit === 'mm' ? `${tidy(length, 3)} mm` : `${tidy(length / INCH, 4)} in`;

/** An angle (rad) as the user reads it: `12 deg`. */
export const formatAngle = (angle: number): string => `${tidy(degrees(angle), 3)} deg`;
