import { radians } from '../base/numbers.js';
import { isError, Refusal, type Outcome } from '../base/problems.js';
import { designFlanges } from '../design/flange/flange.js';
import { designMergePlate } from '../design/merge-plate.js';
import { designOneCradle } from '../design/one-cradle.js';
import type { CradlePart, PlatePart } from '../design/parts.js';
import { designStrongbacks } from '../design/strongback.js';
import { jobFrom } from '../job/index.js';
import type { Job } from '../job/job.js';

/** Sections of a job as a script writes them: the same keys and units as in a job file. */
export type Sections = Readonly<Record<string, unknown>>;

/**
 * The port flange of these sections (ports, studs, flange, and tube and primaries where the tube is to be
 * fitted), or one plate per port where flange.made_as says so.
 * @throws Refusal with every problem that would make the plate scrap
 */
export const portFlange = (sections: Sections): readonly PlatePart[] =>
  needed(designFlanges(jobOf(sections))).map((each) => each.part);

/**
 * The strongback of these sections' flange.
 * @throws Refusal
 */
export const strongback = (sections: Sections): readonly PlatePart[] =>
  needed(designStrongbacks(jobOf(sections)));

/**
 * The merge plate of these sections: tube, collector, merge_plate, and as many ports as there are tubes.
 * @throws Refusal
 */
export const mergePlate = (sections: Sections): PlatePart => needed(designMergePlate(jobOf(sections)));

/** A printed cradle by its own sizes: mm and degrees. */
export interface CradleSizes {
  /** Names the file and is engraved, with `text` behind it. */
  readonly name: string;
  readonly text?: string;
  /** Outside diameter of the tube. */
  readonly od: number;
  /** Of the tube's centre line over the foot's underside. */
  readonly height: number;
  /** Rise of the tube along the flow, degrees. */
  readonly tilt?: number;
  /** On a bend: its centre-line radius, and which way it turns about the flow, degrees from straight up. */
  readonly bend?: { readonly clr: number; readonly clock: number };
  /** Radial gap between tube and saddle: 0.3 on a straight, 0.6 on a bend where left out. */
  readonly clearance?: number;
  readonly width?: number;
  readonly wall?: number;
  /** How far round the tube the saddle reaches, degrees. */
  readonly embrace?: number;
  readonly strap?: { readonly width: number; readonly depth: number } | 'none';
  readonly foot?: { readonly thickness: number; readonly tab: number; readonly hole: number };
  readonly engrave?: number;
}

/**
 * A cradle that holds a tube at one height and tilt, on a straight or a bend.
 * @throws Refusal where it cannot be printed or the tube could not be lifted out
 */
export function tubeCradle(sizes: CradleSizes): CradlePart {
  const { name, od, height, bend, strap = { width: 13, depth: 3 } } = sizes;
  return needed(
    designOneCradle({
      name,
      text: sizes.text ?? name,
      od,
      height,
      tilt: radians(sizes.tilt ?? 0),
      bend: bend && { clr: bend.clr, clock: radians(bend.clock) },
      clearance: sizes.clearance ?? (bend === undefined ? 0.3 : 0.6),
      cradle: {
        width: sizes.width ?? 20,
        wall: sizes.wall ?? 6,
        embrace: radians(sizes.embrace ?? 170),
        strap: strap === 'none' ? undefined : strap,
        foot: sizes.foot ?? { thickness: 6, tab: 15, hole: 4.5 },
        engrave: sizes.engrave ?? 0.6,
      },
    }),
  );
}

/** The sections as a checked job. */
export function jobOf(sections: Sections): Job {
  return needed(jobFrom({ job: 'script', ...sections }));
}

/** The value of an outcome, or its problems thrown. */
export function needed<T>({ value, problems }: Outcome<T>): T {
  if (value === undefined || problems.some(isError)) throw new Refusal(problems);
  return value;
}
