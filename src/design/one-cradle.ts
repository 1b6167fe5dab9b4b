import type { Outcome } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { isError } from '../base/problems.js';
import type { TackFixtureSpec } from '../job/job.js';
import { saddleSpan, strapUnder, type SaddleShape } from './cradle-limits.js';
import { faultProblems } from './cradle-problems.js';
import { letterWidth } from './lettering.js';
import type { CradlePart } from './parts.js';

/** A cradle by its own sizes, for a tube that no job describes. mm and rad. */
export interface OneCradle extends Omit<SaddleShape, 'width' | 'embrace'> {
  readonly name: string;
  /** Engraved on its face. */
  readonly text: string;
  readonly cradle: Omit<TackFixtureSpec['cradle'], 'at' | 'clearanceStraight' | 'clearanceBend'>;
}

/** A single cradle, held to the same limits as those of a fixture. */
export function designOneCradle({ name, text, cradle, ...saddle }: OneCradle): Outcome<CradlePart> {
  const shape: SaddleShape = { ...saddle, width: cradle.width, embrace: cradle.embrace };
  const span = saddleSpan(shape);
  // Half millimetres, rounded up, as the cradles of a fixture.
  const halfBreadth = Math.ceil(2 * (span.sideways + cradle.wall) - tolerance.samePoint) / 2;
  const fit = Math.floor((2 * 0.8 * 2 * halfBreadth) / letterWidth(text, 1)) / 2;
  const part: CradlePart = {
    kind: 'cradle',
    name,
    family: 'cradle',
    title: `Tube cradle ${name}`,
    ...shape,
    halfBreadth,
    strap: strapUnder(cradle.strap, cradle.foot, span, cradle.wall),
    foot: cradle.foot,
    engraving: { text, depth: cradle.engrave, height: Math.min(6, Math.max(2, fit)) },
    remarks: [
      'Prints standing on its foot, without support; 4 perimeters.',
      'Plastic softens far below the heat of a tack: keep it 40 mm from every tack, and never weld out in it.',
    ],
    primary: name,
    station: 0,
  };
  const whole = { ...cradle, at: [], clearanceStraight: shape.clearance, clearanceBend: shape.clearance };
  const problems = faultProblems(part, { primary: name, station: 0, path: 'cradle' }, whole);
  return { value: problems.some(isError) ? undefined : part, problems };
}
