import type { CollectorSpec, KeepOut } from '../../job/job.js';
import { add, scale } from '../../base/vectors.js';
import { packSolids, type Field, type Solid } from '../../geom/solids.js';
import type { CollectorSlot } from '../collector-slots.js';
import { distanceToBuilt, type BuiltPart } from './built.js';
import type { Round, RouteStart, Surroundings } from './problem.js';

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
  /** What stands of this primary: its own tail begins on it. */
  readonly builtOf?: string;
}

/** What messages call the collector's body. */
export const COLLECTOR = 'collector';

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
    name: COLLECTOR,
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

/** What stands of primaries already, as something that the others keep clear of as of any tube. */
export const builtObstacles = (
  parts: Readonly<Record<string, BuiltPart>>,
  od: number,
  clear: number,
): readonly Obstacle[] =>
  Object.entries(parts).map(([id, part]): Obstacle => ({
    ...plain,
    name: `${id} as built`,
    clear,
    ofCollector: false,
    builtOf: id,
    solid: {
      kind: 'field',
      distance: distanceToBuilt(part, od),
      // No point of it is further from its beginning than it is long.
      centre: part.start.at,
      radius: part.length + od / 2,
      doubt: 0,
    },
  }));

/** What one primary keeps clear of, span by span. */
export function surroundingsFor(
  start: Pick<RouteStart, 'id' | 'waiver'>,
  slot: { readonly id: string },
  obstacles: readonly Obstacle[],
): Surroundings {
  const round = (named: readonly Obstacle[]): Round => ({ solids: packSolids(named), named });
  const others = obstacles.filter((o) => o.slot !== slot.id && o.builtOf !== start.id);
  const heads = others.filter((o) => o.headOf.includes(start.id));
  const untilOf = (head: Obstacle): number => start.waiver.heads[heads.indexOf(head)] ?? start.waiver.until;
  const ends = [...new Set(heads.length > 0 ? heads.map(untilOf) : [start.waiver.until])];
  return {
    beginnings: ends
      .sort((a, b) => a - b)
      .map((until) => ({
        until,
        ...round(others.filter((o) => !heads.includes(o) || untilOf(o) < until)),
      })),
    middle: round(others),
    lastStraight: round(others.filter((o) => !o.ofCollector)),
  };
}
