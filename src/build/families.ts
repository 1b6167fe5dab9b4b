import type { Outcome, Problem } from '../base/problems.js';
import { designCradles } from '../design/cradles.js';
import { designFlanges } from '../design/flange/flange.js';
import { designMergePlate } from '../design/merge-plate.js';
import type { Part } from '../design/parts.js';
import { primaryTubes } from '../design/primary-tubes.js';
import { weldsFromFlange, wholeLines, type WithParts } from '../design/route/index.js';
import type { WeldPlaces } from '../design/pieces/index.js';
import type { CentreLines } from '../design/routes-by-hand.js';
import { designStrongbacks } from '../design/strongback.js';
import type { Job } from '../job/job.js';

/** Where the pieces of the primaries may be joined, worked out only where somebody asks. */
export type WeldsOf = () => WeldPlaces | undefined;

/** A kind of part that a job may ask for, by the name that `--only` takes. */
export interface Family {
  readonly name: string;
  /** Whether the job has the sections that ask for it. */
  readonly asked: (job: Job, lines: CentreLines) => boolean;
  /** The sections it is made from, for the message where one is missing. */
  readonly needs: string;
  readonly design: (
    job: Job & WithParts,
    lines: CentreLines,
    weldsOf: WeldsOf,
    routed: CentreLines,
  ) => Outcome<readonly Part[]>;
}

/** Every family there is, in the order in which they are made. */
export const families: readonly Family[] = [
  {
    name: 'flange',
    asked: (job) => job.flange !== undefined && job.ports.some((port) => port.shape !== undefined),
    needs: 'ports with a shape, studs and flange',
    design: (job: Job): Outcome<readonly Part[]> => {
      const { value, problems } = designFlanges(job);
      return { value: value?.map((each) => each.part), problems };
    },
  },
  {
    name: 'strongback',
    asked: (job) => job.strongback !== undefined && job.flange !== undefined,
    needs: 'ports with a shape, studs, flange and strongback',
    design: designStrongbacks,
  },
  {
    name: 'merge-plate',
    asked: (job) => job.mergePlate !== undefined && job.collector !== undefined,
    needs: 'ports, tube, collector and merge_plate',
    design: (job: Job): Outcome<readonly Part[]> => {
      const { value, problems } = designMergePlate(job);
      return { value: value === undefined ? undefined : [value], problems };
    },
  },
  {
    name: 'cradle',
    // Stations can be chosen only where there are routes; those given without a route are an error to tell.
    asked: ({ tackFixture }, lines) =>
      tackFixture !== undefined &&
      (tackFixture.cradle.at === 'auto' ? lines.size > 0 : tackFixture.cradle.at.length > 0),
    needs: 'ports, tube, primaries with routes, and tack_fixture',
    // Cradles stand along the whole tube, what is built of it already included.
    design: (
      job: Job & WithParts,
      lines: CentreLines,
      weldsOf: WeldsOf,
      routed: CentreLines,
    ): Outcome<readonly Part[]> => {
      const welds = (): WeldPlaces | undefined => {
        const found = weldsOf();
        return found && weldsFromFlange(job, found);
      };
      const whole = wholeLines(job, lines);
      return designCradles(job, whole, welds, routed === lines ? whole : wholeLines(job, routed));
    },
  },
  {
    name: 'primary',
    asked: (job, lines) => job.tube !== undefined && lines.size > 0,
    needs: 'tube, and routes: by hand, or found by `tackwright route`',
    design: (job, lines): Outcome<readonly Part[]> => ({
      value: job.tube === undefined ? [] : primaryTubes(job.tube, lines, job.builtParts),
      problems: [],
    }),
  },
];

/** What came of designing the parts of a job. */
export interface Designed {
  readonly parts: readonly Part[];
  /** Which families these parts belong to: everything asked for, or what `only` names. */
  readonly made: readonly string[];
  readonly problems: readonly Problem[];
}

/**
 * Designs every family that the job asks for, or only those named, along the primaries' centre lines. Pure: no
 * kernel, no disk.
 * @param routed the lines as routed, where tubes came out otherwise
 */
export function designParts(
  job: Job & WithParts,
  lines: CentreLines,
  only: readonly string[] | undefined,
  weldsOf: WeldsOf,
  routed: CentreLines = lines,
): Designed {
  const chosen = families.filter((family) => only?.includes(family.name) ?? family.asked(job, lines));
  const problems: Problem[] = [];
  const parts: Part[] = [];
  for (const family of chosen) {
    if (!family.asked(job, lines)) {
      problems.push(nothingToMake(`the job lacks what ${family.name} is made from`, family.needs));
      continue;
    }
    const outcome = family.design(job, lines, weldsOf, routed);
    problems.push(...outcome.problems);
    parts.push(...(outcome.value ?? []));
  }
  if (chosen.length === 0 && only?.includes('cut-list') !== true)
    problems.push(
      nothingToMake('the job asks for no part', families.map((f) => `${f.name}: ${f.needs}`).join('; ')),
    );
  return { parts, made: chosen.map((family) => family.name), problems: onceEach(problems) };
}

/** Parts designed from the same section find the same fault; it is told once. */
function onceEach(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = `${problem.code} ${problem.what} ${problem.place?.path ?? ''}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

const nothingToMake = (what: string, needs: string): Problem => ({
  code: 'build/nothing-to-make',
  severity: 'error',
  what,
  why: 'there would be nothing to take to the table or the printer',
  fix: `give the job the sections it needs (${needs})`,
});
