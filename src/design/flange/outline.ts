import { radians } from '../../base/numbers.js';
import { cross, dot, minus, plus, times, turned, type Point } from '../../base/points.js';
import { difference } from '../../geom/combine.js';
import { stadium } from '../../geom/hulls.js';
import { boundsOf, circleLoop, distanceTo, movedLoop } from '../../geom/loops.js';
import { chordsOf } from '../../geom/chords.js';
import { grow } from '../../geom/offset.js';
import { plateOutline } from '../../geom/outline.js';
import type { Loop } from '../../geom/segments.js';
import type { FlangeSpec } from '../../job/job.js';
import { portLoop } from '../../job/port-loop.js';
import type { PortOpening } from './opening.js';
import type { PlatePlan } from './plan.js';

/** The plate's outline, before any relief slot or nick, and into how many pieces it would fall. */
export interface FlangeOutline {
  readonly outline: Loop;
  readonly pieces: number;
}

/**
 * Metal where it is needed and no more: round every opening and tube end by the edge, round every stud by
 * its boss, and the bar that ties the ports together; concave corners rounded by the fillet.
 */
export function flangeOutline(
  plan: PlatePlan,
  openings: readonly PortOpening[],
  flange: FlangeSpec,
): FlangeOutline {
  const pads: Loop[] = [];
  for (const { of, tubeEnd, opening, kind } of openings) {
    const shape = of.port.shape;
    // A blend is ground out to the port later, so the port's own outline needs its metal too.
    if (shape !== undefined && kind !== 'through')
      pads.push(grow(movedLoop(portLoop(shape, flange.openingMargin), of.turn, of.at), flange.edge));
    else pads.push(grow(opening.loop, flange.edge));
    if (tubeEnd !== undefined) pads.push(grow(tubeEnd, flange.edge));
  }
  const boss = (at: Point, hole: number, usual: number | undefined): Loop =>
    circleLoop(at, usual ?? hole / 2 + 9);
  for (const { at, stud } of plan.studs) {
    if (stud.slotted > 0) {
      const half = stud.slotted / 2;
      pads.push(stadium([at[0] - half, at[1]], [at[0] + half, at[1]], flange.boss));
    } else pads.push(boss(at, stud.hole, flange.boss));
  }
  for (const dowel of plan.dowels) pads.push(boss(dowel.at, dowel.hole, undefined));
  if (flange.webHeight > 0)
    plan.ports.slice(1).forEach((port, i) => {
      const before = plan.ports[i];
      if (before !== undefined) pads.push(stadium(before.at, port.at, flange.webHeight / 2));
    });
  return plateOutline(pads, flange.fillet);
}

/** One relief slot, named for the message that may follow. */
export interface ReliefSlot {
  readonly name: string;
  readonly loop: Loop;
}

/**
 * Slots sawn up from the lower edge between neighbouring ports, leaving `leave` mm of metal at the top, so
 * that the plate can be clamped flat after welding has pulled it. The inner end is round: a sharp one cracks.
 */
export function reliefSlots(plan: PlatePlan, outline: Loop, flange: FlangeSpec): ReliefSlot[] {
  const relief = flange.relief;
  if (relief === undefined) return [];
  const { width, leave } = relief;
  const low = boundsOf(outline).bottom;
  return plan.ports.slice(1).flatMap((port, i) => {
    const before = plan.ports[i];
    if (before === undefined) return [];
    const x = (before.at[0] + port.at[0]) / 2;
    const top = topAt(outline, x);
    const name = `relief ${before.port.id}-${port.port.id}`;
    return [{ name, loop: stadium([x, low - 2 * width], [x, top - leave - width / 2], width / 2) }];
  });
}

/** Height of the outline's upper edge at x. */
function topAt(outline: Loop, x: number): number {
  const points = chordsOf(outline, 0.01);
  let top = -Infinity;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length] as Point;
    if (a[0] === b[0] || (a[0] - x) * (b[0] - x) > 0) return;
    top = Math.max(top, a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]));
  });
  return top;
}

/** Radius of the nick: deep enough to feel with a thumb, shallow enough to leave the edge strong. */
export const NICK = 3;

/**
 * Where to nick the edge so that the plate cannot be taken for its mirror image: up and to the left of its
 * first port. The first place along the edge with enough metal behind it; undefined where there is none.
 */
export function nickPlace(
  plan: PlatePlan,
  outline: Loop,
  edges: readonly Loop[],
  least: number,
): Point | undefined {
  const first = plan.ports[0];
  if (first === undefined) return undefined;
  for (const degrees of [135, 125, 145, 115, 155, 105, 165]) {
    const place = edgeToward(outline, first.at, radians(degrees));
    if (place === undefined) continue;
    if (edges.every((edge) => distanceTo(edge, place).distance >= NICK + least)) return place;
  }
  return undefined;
}

/** Where a ray from a place on the plate first meets the outline. */
function edgeToward(outline: Loop, from: Point, turn: number): Point | undefined {
  const way = turned([1, 0], turn);
  const points = chordsOf(outline, 0.01);
  let least = Infinity;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length] as Point;
    const [p, q] = [cross(way, minus(a, from)), cross(way, minus(b, from))];
    if (p * q > 0 || p === q) return;
    const meet = plus(a, times(minus(b, a), p / (p - q)));
    const along = dot(way, minus(meet, from));
    if (along > 0) least = Math.min(least, along);
  });
  return least === Infinity ? undefined : plus(from, times(way, least));
}

/** The outline with slots and nick taken away. More than one loop where a slot cut the plate in two. */
export const cutAway = (outline: Loop, away: readonly Loop[]): readonly Loop[] =>
  away.length === 0 ? [outline] : difference([outline], away);
