import type { CollectorSpec, KeepOut } from '../../job/job.js';
import { add, scale } from '../../base/vectors.js';
import { packSolids, type Field, type Solid } from '../../geom/solids.js';
import type { CollectorSlot } from '../collector-slots.js';
import type { RouteStart, Surroundings } from './problem.js';

/** Something that tubes keep clear of, and which part of which primary need not. */
export interface Obstacle {
  readonly name: string;
  /** Where the job gives it; absent for what follows from the collector or a stud. */
  readonly path: string | undefined;
  readonly solid: Solid;
  /** Between its surface and a tube's, mm. */
  readonly clear: number;
  /** Waived at the beginning of the primaries of these ports (their own head). */
  readonly headOf: readonly string[];
  /** Waived over every primary's last straight (the collector's own parts). */
  readonly ofCollector: boolean;
  /** Waived for the primary that ends in this slot (its own sleeve). */
  readonly slot: string | undefined;
}

/** Sleeves keep this from other tubes (mm). Common practice, no source. */
const CLEAR_OF_SLEEVES = 1;

const plain = { headOf: [], ofCollector: false, slot: undefined, path: undefined } as const;

/** The distance to a keep-out that the job gives as a file, exact up to `exactWithin` mm at least. */
export type FieldOf = (keepOut: KeepOut, exactWithin: number) => Field | undefined;

/** Spares up to this are told exactly where a keep-out is a file, mm: no clearance is lifted further. */
const EXACT_SPARE = 12;

/**
 * The keep-outs of a job as obstacles. A keep-out given as a file comes as a field, made by whoever has read
 * the file. It must be exact wherever a tube stands too near: proofs that something is blocked rest on that.
 * @throws RangeError where a file's field is missing
 */
export function keepOutObstacles(
  keepOuts: readonly KeepOut[],
  fieldOf: FieldOf,
  radius: number,
): readonly Obstacle[] {
  return keepOuts.map((keepOut): Obstacle => {
    const { name, path, clear, headOf, shape } = keepOut;
    const asked = { ...plain, name, path, clear, headOf };
    if ('file' in shape) {
      const field = fieldOf(keepOut, radius + clear + EXACT_SPARE);
      if (field === undefined) throw new RangeError(`no distance field for ${shape.file}`);
      return { ...asked, solid: { kind: 'field', ...field } };
    }
    return { ...asked, solid: shape };
  });
}

/** The collector's body: a flat-ended cylinder from level with the tubes' ends, along the flow. */
export function collectorBody(
  { at, flow, joint, slip, body }: CollectorSpec,
  pitchRadius: number,
  od: number,
): Obstacle {
  const mouth = od + (joint === 'slip' ? slip.gap + 2 * slip.sleeveWall : 0);
  const diameter = body.diameter ?? 2 * pitchRadius + mouth;
  return {
    ...plain,
    name: 'collector',
    clear: body.clear,
    ofCollector: true,
    solid: { kind: 'cylinder', from: at, to: add(at, scale(flow, body.length)), diameter },
  };
}

/** The sleeves of slip joints, upstream from the tubes' ends by the slip depth; none where tubes are welded. */
export function sleeves(
  { joint, slip }: CollectorSpec,
  slots: readonly CollectorSlot[],
  od: number,
): readonly Obstacle[] {
  if (joint !== 'slip') return [];
  const diameter = od + slip.gap + 2 * slip.sleeveWall;
  return slots.map((slot): Obstacle => ({
    ...plain,
    name: `sleeve ${slot.id}`,
    clear: CLEAR_OF_SLEEVES,
    ofCollector: true,
    slot: slot.id,
    solid: {
      kind: 'cylinder',
      from: add(slot.at, scale(slot.direction, -slip.depth)),
      to: slot.at,
      diameter,
    },
  }));
}

/** What one primary keeps clear of, span by span. */
export function surroundingsFor(
  start: Pick<RouteStart, 'id'>,
  slot: { readonly id: string },
  obstacles: readonly Obstacle[],
): Surroundings {
  const others = obstacles.filter((o) => o.slot !== slot.id);
  const beginning = others.filter((o) => !o.headOf.includes(start.id));
  const lastStraight = others.filter((o) => !o.ofCollector);
  return {
    beginning: packSolids(beginning),
    middle: packSolids(others),
    lastStraight: packSolids(lastStraight),
    named: { beginning, middle: others, lastStraight },
  };
}
