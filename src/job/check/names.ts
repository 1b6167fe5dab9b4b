import type { SectionName } from '../schema/job.js';
import type { Checked } from './checked.js';

/** Sections that stand on another one. */
const needs: readonly (readonly [SectionName, SectionName, string])[] = [
  ['strongback', 'flange', 'its holes are those of the flange'],
  ['merge_plate', 'collector', 'its holes stand at the slots of the collector'],
  ['merge_plate', 'tube', 'its holes are made for the tube'],
  ['tack_fixture', 'tube', 'its saddles are made for the tube'],
];

/** Names that Windows keeps for devices: no folder can have them. */
const RESERVED = /^(con|prn|aux|nul|com\d|lpt\d)(\..*)?$/i;

/** What a section needs to stand on, and the job's own name. */
export function checkSections({ job, written, given, reading }: Checked): void {
  for (const [section, other, why] of needs) {
    if (!given(section) || given(other)) continue;
    reading.error('job/section-missing', section, {
      what: `the job has a section ${section} but none called ${other}`,
      why,
      fix: `add the section ${other}, or take ${section} out`,
    });
  }
  checkOpening({ job, written, given, reading });
  const name = written.job;
  if (
    name !== undefined &&
    (!/^[\p{L}\p{N}][\p{L}\p{N}._-]*$/u.test(name) || RESERVED.test(name) || name.endsWith('.'))
  ) {
    const better = name
      .normalize('NFC')
      .replace(/[^\p{L}\p{N}._-]+/gu, '-')
      .replace(/^[-._]+|[-.]+$/g, '');
    reading.error('job/name', 'job', {
      what: `job is "${name}", which no folder can be called everywhere`,
      why: 'the export folder is named after the job',
      fix: `write one word of letters, digits and dashes, such as ${better === '' || RESERVED.test(better) ? 'my-header' : better}`,
    });
  }
}

/** A flange is opened to the port, to the tube, or to both: what it is opened to must be there. */
function checkOpening({ job, written, given, reading }: Checked): void {
  if (!written.flange) return;
  const opening = written.flange.opening ?? 'auto';
  if ((opening === 'bore' || opening === 'blend') && !given('tube')) {
    reading.error('job/section-missing', 'flange.opening', {
      what: `flange.opening is ${opening}, but the job has no tube`,
      why: 'the plate is bored for a tube whose size is not known',
      fix: 'add a line: `tube: { od: 42.4, wall: 1.6 }`',
    });
  }
  const wanted = opening === 'port' || opening === 'blend' || (opening === 'auto' && !given('tube'));
  const { ports } = written;
  const bare = job.ports.findIndex(
    (_, i) => ports?.shape === undefined && ports?.each?.[i]?.shape === undefined,
  );
  if (!wanted || bare < 0) return;
  reading.error('job/missing-key', 'ports.shape', {
    what: `ports.shape is missing: the flange cannot be opened at P${bare + 1}`,
    why: 'the opening follows the port, and nothing says how it looks',
    fix: 'add a line under ports, such as `shape: { circle: { diameter: 38 } }`',
  });
}

/** Primaries that are named in the job but do not exist. */
export function checkNames({ job, reading }: Checked): void {
  const ids = job.ports.map((port) => port.id);
  if (ids.length === 0) return;
  const check = (id: string, path: string): void => {
    if (ids.includes(id)) return;
    const meant = ids.find((known) => known === id.toUpperCase());
    reading.error('job/no-such-primary', path, {
      what: `${path} names "${id}"; the job has ${ids.length === 1 ? 'only P1' : `${ids[0] ?? ''} to ${ids.at(-1) ?? ''}`}${meant === undefined ? '' : `; did you mean "${meant}"?`}`,
      why: 'what is said about it would be lost',
      fix: `write one of: ${ids.join(', ')}`,
    });
  };
  for (const id of Object.keys(job.primaries?.byHand ?? {})) check(id, `primaries.by_hand.${id}`);
  for (const id of Object.keys(job.primaries?.built ?? {})) check(id, `primaries.built.${id}`);
  for (const keepOut of job.keepOuts)
    keepOut.headOf.forEach((id, i) => check(id, `${keepOut.path}.head_of.${i}`));
  const names = job.keepOuts.map(({ name }) => name);
  job.keepOuts.forEach(({ name, path }, i) => {
    if (names.indexOf(name) === i) return;
    reading.warn('job/same-name', `${path}.name`, {
      what: `two keep-outs are called "${name}"`,
      why: 'what comes near to one is told by its name, and nobody could tell which',
      fix: `call this one "${name} 2"`,
    });
  });
  const places = job.tackFixture?.cradle.at ?? 'auto';
  for (const cradle of places === 'auto' ? [] : places) check(cradle.primary, `${cradle.path}.primary`);
}
