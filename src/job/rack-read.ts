import * as z from 'zod/mini';
import { isError, type Outcome, type Place, type Problem } from '../base/problems.js';
import type { LengthUnit } from '../base/units.js';
import type { Locate } from '../read/source-map.js';
import { readYaml } from '../read/yaml.js';
import { frozen } from './frozen.js';
import { takeGuesses } from './guesses.js';
import type { Guess } from './job.js';
import { checkRack } from './rack-check.js';
import {
  rackNeeds,
  rackSchema,
  rackSectionNames,
  rackSectionSchema,
  type RackSections,
} from './rack-schema.js';
import type { Rack, RackBend, RackStraight } from './rack.js';
import { startReading, type Placer, type Reading } from './reading.js';
import { tellIssue, tellUnknownKey, type Written } from './schema/faults.js';

/** A rack read: the rack where it has no error, all that is to be told, and where each key stands. */
export interface ReadRack extends Outcome<Rack> {
  readonly locate: Locate;
}

/**
 * Reads a rack file: text -> checked, complete, frozen rack. Values are written as in a job file: with their
 * own units, or `{ value, how: measured }`. Problems are gathered with line and column; nothing is thrown.
 */
export function readRack(text: string, options: { readonly file?: string } = {}): ReadRack {
  const yaml = readYaml(text, options.file);
  const { locate } = yaml;
  if (yaml.value === undefined) return { value: undefined, problems: yaml.problems.map(ofRack), locate };
  const placed: Placer = (path, which): Place => ({
    ...(options.file === undefined ? {} : { file: options.file }),
    path,
    ...locate(path, which),
  });
  const early = startReading('mm', placed);
  const guesses: Guess[] = [];
  const plain = (takeGuesses(yaml.value, [], early, guesses) ?? {}) as Record<string, unknown>;
  const unit: LengthUnit = plain.units === 'in' ? 'in' : 'mm';
  const reading = startReading(unit, placed);
  reading.problems.push(...early.problems);
  const sections = readSections(plain, unit, reading);
  const rack = complete(sections, options.file, guesses, reading);
  if (rack !== undefined) checkRack(rack, plain, reading);
  const problems = [...yaml.problems, ...reading.problems].sort(
    (a, b) => (a.place?.line ?? Infinity) - (b.place?.line ?? Infinity) || 0,
  );
  return { value: problems.some(isError) || rack === undefined ? undefined : frozen(rack), problems, locate };
}

/** The text reader speaks of jobs; an empty rack is told in the rack's own words. */
const ofRack = (problem: Problem): Problem =>
  problem.code === 'job/empty'
    ? {
        ...problem,
        code: 'rack/empty',
        why: 'without bends and straights there is nothing to saw the primaries from',
        fix: 'write 3 lines: `tube: { od: 42.4, wall: 1.6 }`, `bends: [...]`, `straights: [...]`',
      }
    : problem;

function readSections(plain: Record<string, unknown>, unit: LengthUnit, reading: Reading): RackSections {
  const written: Written = { schema: () => rackSchema(unit), data: plain, reading, called: 'a rack' };
  const sections: Record<string, unknown> = {};
  for (const key of Object.keys(plain))
    if (!(rackSectionNames as readonly string[]).includes(key)) tellUnknownKey([key], written);
  for (const name of rackSectionNames) {
    if (plain[name] === undefined && !rackNeeds.includes(name)) continue;
    const read = z.safeParse(rackSectionSchema(name, unit), plain[name]);
    if (read.success) sections[name] = read.data;
    else for (const issue of read.error.issues) tellIssue(issue, [name], written);
  }
  return sections as RackSections;
}

const many = (quantity: number | 'unlimited' | undefined, standard: number): number =>
  quantity === 'unlimited' ? Infinity : (quantity ?? standard);

/** The rack with its defaults (common practice): kerf 2, dress 0.5, raw trim 3; bought things unlimited. */
function complete(
  written: RackSections,
  file: string | undefined,
  guesses: readonly Guess[],
  reading: Reading,
): Rack | undefined {
  if (written.tube === undefined) return undefined;
  const bends: RackBend[] = (written.bends ?? []).map((bend, i) => ({
    path: `bends.${i}`,
    clr: bend.clr,
    angle: bend.angle,
    legs: bend.legs,
    price: bend.price,
    quantity: many(bend.quantity, Infinity),
  }));
  const straights: RackStraight[] = (written.straights ?? []).map((straight, i) => ({
    path: `straights.${i}`,
    length: straight.length,
    price: straight.price,
    quantity: many(straight.quantity, Infinity),
  }));
  (written.offcuts ?? []).forEach((offcut, i) => {
    const common = {
      path: `offcuts.${i}`,
      price: offcut.price ?? 0,
      quantity: many(offcut.quantity, 1),
    };
    if ('length' in offcut) straights.push({ ...common, length: offcut.length });
    else bends.push({ ...common, clr: offcut.clr, angle: offcut.angle, legs: offcut.legs });
  });
  return {
    file,
    unit: reading.unit,
    tube: { ...written.tube, material: reading.word('tube.material', written.tube.material, '304') },
    saw: {
      kerf: reading.length('saw.kerf', written.saw?.kerf, 2),
      dress: reading.length('saw.dress', written.saw?.dress, 0.5),
      rawTrim: reading.length('saw.raw_trim', written.saw?.raw_trim, 3),
    },
    bends,
    straights,
    defaults: reading.defaults,
    guesses,
  };
}
