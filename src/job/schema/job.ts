/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import * as z from 'zod/mini';
import { type LengthUnit } from '../../base/units.js';
import { leaves } from './leaf.js';
import { maybe, section } from './shapes.js';
import { flangeSection, mergePlateSection, strongbackSection } from './plates.js';
import { portsSection, studsSection } from './ports.js';
import { clearSection, keepOutsSection, tackFixtureSection, wrenchSection } from './surroundings.js';
import { collectorSection, engineSection, lengthSection, primariesSection, tubeSection } from './tubes.js';

// One parse of one job: compiling the schema would cost more than it saves, and forbids strict content policies.
z.config({ jitless: true });

/** The schema of a job whose bare lengths are in `unit`. What comes out is mm and rad, without defaults. */
export function jobSchema(unit: LengthUnit) {
  const l = leaves(unit);
  return section('one header to be made', {
    job: l.word({
      says: 'the name of the job; names the export folder',
      example: 'hillclimb-four',
      most: 60,
    }),
    units: maybe(l.choice(['mm', 'in'], { says: 'the unit of bare lengths', example: 'mm' })),
    engine: maybe(engineSection(l)),
    ports: portsSection(l),
    studs: maybe(studsSection(l)),
    flange: maybe(flangeSection(l)),
    strongback: maybe(strongbackSection(l)),
    tube: maybe(tubeSection(l)),
    primaries: maybe(primariesSection(l)),
    collector: maybe(collectorSection(l)),
    merge_plate: maybe(mergePlateSection(l)),
    length: maybe(lengthSection(l)),
    rack: maybe(l.word({ says: 'the rack file beside the job', example: 'rack.yaml', most: 260 })),
    keep_outs: maybe(keepOutsSection(l)),
    clear: maybe(clearSection(l)),
    wrench: maybe(wrenchSection(l)),
    tack_fixture: maybe(tackFixtureSection(l)),
  });
}

export type JobSchema = ReturnType<typeof jobSchema>;

/** A job as written, in mm and rad: every optional key may be absent. */
export type WrittenJob = z.infer<JobSchema>;

const made = new Map<LengthUnit, JobSchema>();

/** The schema for a unit, made once. */
export function jobSchemaFor(unit: LengthUnit): JobSchema {
  const known = made.get(unit) ?? jobSchema(unit);
  made.set(unit, known);
  return known;
}
