import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { tidy } from '../base/numbers.js';
import { type Problem, Refusal } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import type { Kernel } from './kernel.js';
import { boundsOfShape } from './bounds.js';
import { isSound, piecesOf, volumeOf } from './measure.js';
import { type Box, type Measure, type Solid, solidOf } from './solid.js';

/** What a part must be, found without the kernel. */
export interface Claim {
  readonly part: string;
  /** mm^3, from a closed form or a second method. */
  readonly volume: number;
  /** Where that volume comes from: `area x thickness`. */
  readonly volumeFrom: string;
  /** Largest relative difference of the volume; the common one where nothing is said. */
  readonly volumeWithin?: number;
  /** The box that just holds the part, where it is known. */
  readonly bounds?: Box;
  /** What else is to be measured on it, and the code it is refused with if that fails. */
  readonly also?: {
    readonly code: Problem['code'];
    readonly measures: (found: TopoDS_Shape) => readonly Measure[];
  };
  /** What to change first if it fails. */
  readonly cure: string;
}

/**
 * Lets a kernel shape leave this room only as what was asked for: sound, one solid, of the volume and
 * within the box that were worked out without the kernel. Booleans fail silently, so nothing is taken on
 * trust. Takes the shape over: it is given back with the solid, or at once if it is refused.
 * @throws Refusal `solid/count`, `solid/unsound`, `solid/volume`, `solid/bounds`.
 */
export function prove(kernel: Kernel, shape: TopoDS_Shape, claim: Claim): Solid {
  const solids = piecesOf(kernel, shape, 'solid');
  const [only] = solids;
  try {
    if (!only || solids.length !== 1)
      throw refuse(claim, 'solid/count', `it came out as ${solids.length} solids, not 1`);
    if (!isSound(kernel, only)) throw refuse(claim, 'solid/unsound', 'its faces do not close or they cross');
    const volume = volumeOf(kernel, only);
    const measures = [volumeMeasure(claim, volume)];
    const bounds = boundsOfShape(kernel, only);
    if (claim.bounds) measures.push(...boundsMeasures(claim.bounds, bounds));
    insist(claim, measures, measures[0]?.ok ? 'solid/bounds' : 'solid/volume');
    if (claim.also) {
      const more = claim.also.measures(only);
      insist(claim, more, claim.also.code);
      measures.push(...more);
    }
    return solidOf(only, { name: claim.part, volume, bounds, measures });
  } catch (refused) {
    for (const one of solids) one.delete();
    throw refused;
  } finally {
    shape.delete();
  }
}

function insist(claim: Claim, measures: readonly Measure[], code: Problem['code']): void {
  const wrong = measures.filter((measure) => !measure.ok);
  if (wrong.length > 0) throw refuse(claim, code, wrong.map(inWords).join('; '));
}

function volumeMeasure(claim: Claim, measured: number): Measure {
  const within = (claim.volumeWithin ?? tolerance.volume) * Math.abs(claim.volume);
  return measureOf(`volume against ${claim.volumeFrom}`, claim.volume, measured, 'mm3', within);
}

function boundsMeasures(asked: Box, found: Box): Measure[] {
  const along = (what: string, axis: 0 | 1 | 2): Measure[] => [
    measureOf(`least ${what}`, asked.low[axis], found.low[axis], 'mm', tolerance.file),
    measureOf(`greatest ${what}`, asked.high[axis], found.high[axis], 'mm', tolerance.file),
  ];
  return [...along('x', 0), ...along('y', 1), ...along('z', 2)];
}

/** A measure with its verdict. */
export const measureOf = (
  what: string,
  asked: number,
  measured: number,
  unit: 'mm' | 'mm3',
  within: number,
): Measure => ({
  what,
  asked,
  measured,
  unit,
  tolerance: within,
  // Not "greater than": a volume that is no number must fail.
  ok: Math.abs(measured - asked) <= within,
});

const inWords = ({ what, asked, measured, unit }: Measure): string =>
  `${what}: asked ${tidy(asked)} ${unit}, measured ${tidy(measured)} ${unit}`;

const refuse = (claim: Claim, code: Problem['code'], what: string): Refusal =>
  new Refusal([
    {
      code,
      severity: 'error',
      what: `${claim.part}: ${what}`,
      why: 'a part that is not what its figures say would be cut or printed wrong, so no file of it was written',
      fix: claim.cure,
    },
  ]);
