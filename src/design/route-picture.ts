import type { Frame } from '../base/frames.js';
import type { Vector } from '../base/vectors.js';
import { missOf, type CentreLine } from '../geom/centre-line.js';
import type { Loop } from '../geom/segments.js';
import type { CollectorSpec, Job, KeepOut } from '../job/job.js';
import { collectorSlots, type CollectorSlots } from './collector-slots.js';
import { designFlanges } from './flange/flange.js';
import type { CentreLines } from './routes-by-hand.js';

/** A solid that is drawn as an outline: mm in the engine's frame. */
export interface PicturedCylinder {
  readonly from: Vector;
  readonly to: Vector;
  readonly diameter: number;
}

/** What a picture of the routes shows: data only, places in the engine's frame. */
export interface RoutePicture {
  readonly job: string;
  readonly od: number;
  readonly wall: number;
  readonly primaries: readonly {
    readonly id: string;
    readonly slot: string | undefined;
    readonly line: CentreLine;
  }[];
  /** Flanges by their outline, on the side the tubes are on; in the plate's frame, which stands on the head. */
  readonly plates: readonly { readonly frame: Frame; readonly thickness: number; readonly outline: Loop }[];
  readonly collector:
    | {
        readonly at: Vector;
        readonly mouth: CollectorSlots;
        readonly body: PicturedCylinder;
        /** Of slip joints, as far as they reach back over the tubes. */
        readonly sleeves: readonly PicturedCylinder[];
      }
    | undefined;
  readonly keepOuts: readonly Pick<KeepOut, 'name' | 'shape'>[];
}

/** Gathers what a picture of a job's routes shows; undefined where there are none. */
export function routePicture(job: Job, lines: CentreLines): RoutePicture | undefined {
  const { tube, collector } = job;
  if (tube === undefined || lines.size === 0) return undefined;
  const mouth = collector && collectorSlots(collector, tube.od, job.ports.length);
  const canDraw = job.flange !== undefined && job.ports.some(({ shape }) => shape !== undefined);
  const flanges = canDraw ? (designFlanges(job).value ?? []) : [];
  return {
    job: job.name,
    od: tube.od,
    wall: tube.wall,
    primaries: [...lines].map(([id, line]) => ({ id, line, slot: mouth && nearestSlot(mouth, line) })),
    plates: flanges.map(({ part, plan }) => ({
      frame: plan.frame,
      thickness: part.thickness,
      outline: part.outline,
    })),
    collector: collector && mouth && { at: collector.at, mouth, ...bodies(collector, mouth, tube.od) },
    keepOuts: job.keepOuts.map(({ name, shape }) => ({ name, shape })),
  };
}

function nearestSlot({ slots }: CollectorSlots, line: CentreLine): string | undefined {
  const ranked = slots
    .map((slot) => ({ id: slot.id, far: missOf(line.end, slot).distance }))
    .sort((a, b) => a.far - b.far);
  return ranked[0]?.id;
}

/** The collector's body and its sleeves, as long and as wide as the router takes them. */
function bodies(
  { at, flow, joint, slip, body }: CollectorSpec,
  { radius, slots }: CollectorSlots,
  od: number,
): { readonly body: PicturedCylinder; readonly sleeves: readonly PicturedCylinder[] } {
  const sleeve = od + slip.gap + 2 * slip.sleeveWall;
  const along = (from: Vector, way: Vector, far: number): Vector => [
    from[0] + way[0] * far,
    from[1] + way[1] * far,
    from[2] + way[2] * far,
  ];
  return {
    body: {
      from: at,
      to: along(at, flow, body.length),
      diameter: body.diameter ?? 2 * radius + (joint === 'slip' ? sleeve : od),
    },
    sleeves:
      joint === 'slip'
        ? slots.map((slot) => ({
            from: along(slot.at, slot.direction, -slip.depth),
            to: slot.at,
            diameter: sleeve,
          }))
        : [],
  };
}
