import { radians } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { dot3 } from '../../base/vectors.js';
import type { CentreLine, CentreLineRow } from '../../geom/centre-line.js';
import type { Job, Port } from '../../job/job.js';
import type { NoWeld, PrimaryToCut } from './primary.js';

/** A route of one primary, found or by hand. */
export interface RouteToCut {
  /** P1, P2, ... */
  readonly id: string;
  readonly rows: readonly CentreLineRow[];
  readonly line: CentreLine;
  /** Its key, for messages; `primaries.by_hand.<id>` where nothing is said. */
  readonly path?: string;
  /** Stretches that wrench spaces, keep-outs and fixed cradles forbid. */
  readonly noWeld?: readonly NoWeld[];
}

/** A lean below this (rad) is square: no saw holds it. Common practice, no source. */
const SQUARE = radians(0.1);

/** How far a tube leans from square to the face it leaves, rad; 0 where no saw could tell. */
export function leanOf(port: Port): number {
  const lean = Math.acos(Math.min(1, Math.max(-1, dot3(port.direction, port.face.out))));
  return lean < SQUARE ? 0 : lean;
}

/** A job with what stands already of primaries that are built up to a weld. */
export type JobToCut = Job & { readonly builtParts?: Readonly<Record<string, { readonly length: number }>> };

/**
 * The primaries of a job as they are to be cut. At the flange: butted on, with an oblique first cut where the
 * tube leans; into a socket, longer by its depth; through the plate, longer by what is in it. At the collector:
 * no weld inside the sleeve of a slip joint. What goes on a part that stands already begins square at its weld.
 */
export function primariesToCut(job: JobToCut, routes: readonly RouteToCut[]): readonly PrimaryToCut[] {
  const radius = (job.tube?.od ?? 0) / 2;
  const slip = job.collector?.joint === 'slip' ? job.collector.slip.depth : 0;
  return routes.map(({ id, rows, line, path, noWeld = [] }): PrimaryToCut => {
    const part = job.builtParts?.[id];
    const onBuilt = part !== undefined;
    const port = job.ports.find((one) => one.id === id);
    // A job without a flange says nothing of what the tube is butted on: the router counts it square, too.
    const lean = port && job.flange && !onBuilt ? leanOf(port) : 0;
    const named = { what: 'the sleeve of its slip joint', path: 'collector.slip.depth' };
    const sleeve: NoWeld[] = slip > 0 ? [[line.length - slip, line.length + tolerance.shop, named]] : [];
    return {
      id,
      rows,
      path: path ?? `primaries.by_hand.${id}`,
      noWeld: [...noWeld, ...sleeve],
      intoFlange: onBuilt ? 0 : inFlange(job) / Math.cos(lean),
      oblique: radius * Math.tan(lean),
      ...(onBuilt && { onBuilt, begins: part.length }),
      slip,
    };
  });
}

/** How deep the tube reaches into the plate, square to it, mm. */
function inFlange(job: Job): number {
  const joint = job.primaries?.jointAtFlange;
  if (joint?.kind === 'socket') return joint.depth;
  if (joint?.kind === 'through') return Math.max(0, (job.flange?.thickness ?? 0) - joint.recess);
  return 0;
}
