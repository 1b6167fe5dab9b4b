import * as z from 'zod/mini';
import { isError, type Outcome, type Place, type Problem } from '../base/problems.js';
import type { LengthUnit } from '../base/units.js';
import { readYaml } from '../read/yaml.js';
import type { Locate } from '../read/source-map.js';
import { checkJob } from './check/index.js';
import { completeJob } from './complete/index.js';
import { frozen } from './frozen.js';
import { takeGuesses } from './guesses.js';
import type { Guess, Job } from './job.js';
import { startReading, type Placer, type Reading } from './reading.js';
import { tellIssue, tellUnknownKey, type Written } from './schema/faults.js';
import { jobSchema, neededSections, sectionNames, sectionSchema, type Sections } from './schema/job.js';
import { applySetting, settingPlace, settingsOf } from './set.js';

export interface ReadOptions {
  /** Name of the file, for messages. */
  readonly file?: string;
  /** Values that override the file's: `ports.row.pitch=94mm`. */
  readonly set?: readonly string[];
}

/** A job read: the job where it has no error, all that is to be told, and where each key stands in the text. */
export interface ReadJob extends Outcome<Job> {
  readonly locate: Locate;
}

/**
 * Reads a job file: text -> checked, complete, frozen job. All problems are gathered in one pass, each with
 * its line and column; nothing is thrown, whatever the text.
 */
export function readJob(text: string, options: ReadOptions = {}): ReadJob {
  const yaml = readYaml(text, options.file);
  if (yaml.value === undefined) return { value: undefined, problems: yaml.problems, locate: yaml.locate };
  const job = jobFromData(yaml.value, options, yaml.locate);
  const problems = inOrder([...yaml.problems, ...job.problems]);
  return { value: problems.some(isError) ? undefined : job.value, problems, locate: yaml.locate };
}

/** A job from plain data, as a script writes it: the same keys as in a job file, without lines. */
export function jobFrom(data: unknown, options: ReadOptions = {}): Outcome<Job> {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) {
    const place = options.file === undefined ? {} : { place: { file: options.file } };
    const problem: Problem = {
      code: 'job/not-a-mapping',
      severity: 'error',
      what: 'the job is not an object with keys',
      why: 'nothing says which part a value belongs to',
      fix: "hand in an object such as { job: 'trial', ports: { row: { count: 1 } } }",
      ...place,
    };
    return { value: undefined, problems: [problem] };
  }
  return jobFromData(data as Record<string, unknown>, options, () => undefined);
}

/** File order, as the user reads down the page; what has no line comes last. */
const inOrder = (problems: readonly Problem[]): Problem[] =>
  [...problems].sort(
    (a, b) =>
      (a.place?.line ?? Infinity) - (b.place?.line ?? Infinity) ||
      (a.place?.column ?? Infinity) - (b.place?.column ?? Infinity) ||
      0,
  );

/** Places a path in the file, or on the command line where it was set there. */
function placerFor(options: ReadOptions, settings: readonly string[], locate: Locate): Placer {
  return (path, which): Place => {
    const set = settings.find((one) => path === one || path.startsWith(`${one}.`));
    if (set !== undefined) return { file: settingPlace(set), path };
    return { ...(options.file === undefined ? {} : { file: options.file }), path, ...locate(path, which) };
  };
}

function jobFromData(data: Record<string, unknown>, options: ReadOptions, locate: Locate): Outcome<Job> {
  const setPaths: string[] = [];
  const placed = placerFor(options, setPaths, locate);
  const early = startReading('mm', placed);
  const guesses: Guess[] = [];
  const plain = (takeGuesses(data, [], early, guesses) ?? {}) as Record<string, unknown>;
  for (const setting of settingsOf(options.set ?? [], early)) {
    setPaths.push(setting.path.join('.'));
    applySetting(plain, setting, jobSchema('mm'), early, guesses);
  }
  const unit: LengthUnit = plain.units === 'in' ? 'in' : 'mm';
  const reading = startReading(unit, placed);
  reading.problems.push(...early.problems);
  if (plain.units === undefined) reading.defaults.push({ path: 'units', value: 'mm' });
  const sections = readSections(plain, unit, reading);
  const job = completeJob(sections, guesses, reading);
  checkJob({ job, written: sections, given: (name) => plain[name] !== undefined, reading });
  const problems = inOrder(reading.problems);
  return { value: problems.some(isError) ? undefined : frozen(job), problems };
}

/** Every section by itself, so that a slip in one does not hide those in another. */
function readSections(plain: Record<string, unknown>, unit: LengthUnit, reading: Reading): Sections {
  const written: Written = { schema: () => jobSchema(unit), data: plain, reading };
  const sections: Record<string, unknown> = {};
  for (const key of Object.keys(plain)) {
    if (!(sectionNames as readonly string[]).includes(key)) tellUnknownKey([key], written);
  }
  for (const name of sectionNames) {
    if (plain[name] === undefined && !neededSections.includes(name)) continue;
    const read = z.safeParse(sectionSchema(name, unit), plain[name]);
    if (read.success) sections[name] = read.data;
    else for (const issue of read.error.issues) tellIssue(issue, [name], written);
  }
  return sections as Sections;
}
