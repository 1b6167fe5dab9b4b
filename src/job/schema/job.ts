import * as z from 'zod/mini';
import type { LengthUnit } from '../../base/units.js';
import { leaves, type Leaves } from './leaf.js';
import { maybe, section } from './shapes.js';
import { asCutSection } from './as-cut.js';
import { flangeSection, mergePlateSection, strongbackSection } from './plates.js';
import { serviceSection } from './service.js';
import { shopSection } from './shop.js';
import { portsSection, studsSection } from './ports.js';
import { clearSection, keepOutsSection, tackFixtureSection, wrenchSection } from './surroundings.js';
import { collectorSection, engineSection, lengthSection, primariesSection, tubeSection } from './tubes.js';

// One parse of one job: compiling the schema would cost more than it saves, and forbids strict content policies.
z.config({ jitless: true });

/** The sections of a job, in the order in which a job is written. */
const makers = {
  job: (l: Leaves) =>
    l.word({ says: 'the name of the job; names the export folder', example: 'hillclimb-four', most: 60 }),
  units: (l: Leaves) => l.choice(['mm', 'in'], { says: 'the unit of bare lengths', example: 'mm' }),
  engine: engineSection,
  ports: portsSection,
  studs: studsSection,
  flange: flangeSection,
  strongback: strongbackSection,
  tube: tubeSection,
  primaries: primariesSection,
  collector: collectorSection,
  merge_plate: mergePlateSection,
  length: lengthSection,
  rack: (l: Leaves) => l.word({ says: 'the rack file beside the job', example: 'rack.yaml', most: 260 }),
  as_cut: asCutSection,
  keep_outs: keepOutsSection,
  clear: clearSection,
  wrench: wrenchSection,
  service: serviceSection,
  shop: shopSection,
  tack_fixture: tackFixtureSection,
};

export type SectionName = keyof typeof makers;

export const sectionNames = Object.keys(makers) as SectionName[];

/** Sections that no job is without. */
export const neededSections: readonly SectionName[] = ['job', 'ports'];

/** The sections of a job as written, in mm and rad: one that is left out, or has a fault of its own, is absent. */
export type Sections = { readonly [K in SectionName]?: z.output<ReturnType<(typeof makers)[K]>> };

const made = new Map<string, z.core.$ZodType>();

function once(key: string, make: () => z.core.$ZodType): z.core.$ZodType {
  const schema = made.get(key) ?? make();
  made.set(key, schema);
  return schema;
}

/**
 * The schema of one section of a job whose bare lengths are in `unit`. What comes out is mm and rad, without
 * defaults. Made when first asked for: the whole schema takes longer to make than a job to read.
 */
export const sectionSchema = (name: SectionName, unit: LengthUnit): z.core.$ZodType =>
  once(`${unit} ${name}`, () => makers[name](leaves(unit)));

/** The schema of a whole job. */
export const jobSchema = (unit: LengthUnit): z.core.$ZodType =>
  once(unit, () =>
    section(
      'one header to be made',
      Object.fromEntries(
        sectionNames.map((name) => {
          const one = sectionSchema(name, unit);
          return [name, neededSections.includes(name) ? one : maybe(one)];
        }),
      ),
    ),
  );
