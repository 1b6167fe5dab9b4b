import { dot3, scale, subtract, type Vector } from '../../base/vectors.js';
import type { Job } from '../../job/job.js';
import { materialOf } from '../../job/tables/materials.js';
import type { CentreLines } from '../routes-by-hand.js';

/** Left between a tube's end and its stop when all is hot (mm). Common practice, no source. */
const LEFT_HOT = 3;
/** Least of a slip joint that should stay together, in tube diameters. Common practice, no source. */
const LEAST_HELD = 0.5;
/** Growth of aluminium, per K: EN 1999-1-1, 3.2.5 (from memory). */
const ALUMINIUM = 23e-6;

/** How the primaries grow when hot, and what their joints need for it. An estimate. mm. */
export interface Growth {
  /** Temperature of the primaries that it is reckoned at, C. */
  readonly at: number;
  /** Of each primary's end along its own last straight, toward the collector. */
  readonly ends: readonly { readonly primary: string; readonly along: number }[];
  /** Most that one end may run ahead of another. */
  readonly apart: number;
  /** Cold gap between the tubes' ends and their stops: where the collector floats, and where its outlet is held. */
  readonly gap: number;
  readonly gapHeld: number;
  /** Of the slip depth, what stays together with the larger of the gaps, and the least that should. */
  readonly held: number | undefined;
  readonly leastHeld: number | undefined;
  /** What the temperatures and growths were taken from. */
  readonly materials: readonly string[];
}

/**
 * Growth against slip depth, an estimate:
 *
 *   a tube of one temperature grows alike in all directions about its start, so its end moves by
 *   e = g(T) (end - start), g(T) = alpha(T) (T - 20), whatever bends lie between;
 *   its start moves with what it stands on, s = g(T head) (start - port 1): the flange, where that is one piece,
 *   else the head, taken as aluminium;
 *   along its last straight d that is u = (e + s) . d.
 *
 * Two primaries may differ in temperature, so apart = the largest over pairs of u_i hot - u_j cooler by `apart`.
 * A collector that floats is carried along by the tubes: gap = apart + 3. One that is held at its outlet grows
 * back toward them: gap = largest u + g(T collector) (body length) + 3.
 *
 * Coefficients: the job's materials (EN 10088-1 for 304 and 321, a supplier's sheet for 409, EN 1993-1-2 for
 * mild steel); above 500 C stainless keeps the last of its table, which is up to 3 % low. Temperatures are the
 * job's `service.hot`, assumptions where it gives none.
 */
export function growthOf(job: Job, lines: CentreLines): Growth | undefined {
  const { tube, flange, collector, service } = job;
  const metal = tube && materialOf(tube.material);
  const origin = job.ports[0]?.at;
  if (tube === undefined || metal === undefined || origin === undefined || lines.size === 0) return undefined;
  const { hot } = service;
  const plate = flange?.madeAs === 'one piece' ? materialOf(flange.material) : undefined;
  const base = plate?.growth(hot.head) ?? ALUMINIUM * (hot.head - 20);
  const alongAt = (temperature: number) => {
    const g = metal.growth(temperature);
    return [...lines].map(([primary, line]) => {
      const grown: Vector = scale(subtract(line.end.at, line.start.at), g);
      const carried: Vector = scale(subtract(line.start.at, origin), base);
      return { primary, along: dot3(grown, line.end.direction) + dot3(carried, line.end.direction) };
    });
  };
  const ends = alongAt(hot.primaries);
  const cooler = alongAt(hot.primaries - hot.apart);
  let apart = 0;
  ends.forEach((one, i) =>
    cooler.forEach((other, j) => {
      if (i !== j) apart = Math.max(apart, Math.abs(one.along - other.along));
    }),
  );
  const back = collector === undefined ? 0 : metal.growth(hot.collector) * collector.body.length;
  const gap = apart + LEFT_HOT;
  const gapHeld = Math.max(0, ...ends.map(({ along }) => along)) + back + LEFT_HOT;
  const slips = collector?.joint === 'slip';
  return {
    at: hot.primaries,
    ends,
    apart,
    gap,
    gapHeld,
    held: slips ? collector.slip.depth - Math.max(gap, gapHeld) : undefined,
    leastHeld: slips ? LEAST_HELD * tube.od : undefined,
    materials: [metal.name, plate === undefined ? 'aluminium' : plate.name],
  };
}
