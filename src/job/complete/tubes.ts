import { degrees, radians, tidy } from '../../base/numbers.js';
import type { Vector } from '../../base/vectors.js';
import type { BuiltTo, CollectorSpec, FlangeJoint, Job, PrimariesSpec, RouteRow, Tube } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { unitOf } from './ports.js';

export function completeEngine(written: Sections['engine']): Job['engine'] {
  return (
    written && {
      cylinders: written.cylinders,
      firingOrder: written.firing_order,
      capacity: written.capacity,
      tunedFor: written.tuned_for,
      exhaustOpens: written.exhaust_opens,
    }
  );
}

export function completeTube(written: Sections['tube'], reading: Reading): Tube | undefined {
  return (
    written && {
      od: written.od,
      wall: written.wall,
      material: reading.word('tube.material', written.material, '304'),
    }
  );
}

/** Gap (mm, on the diameter) of a tube in a hole or sleeve, over its measured OD. Common practice. */
const GAP = 0.4;

/** The primaries with their defaults (common practice): stub 30, last straight the slip depth + 15 or 25 welded. */
export function completePrimaries(
  written: Sections['primaries'],
  collector: CollectorSpec | undefined,
  flange: { readonly thickness: number } | undefined,
  reading: Reading,
): PrimariesSpec {
  const given = written ?? {};
  const { length, angle } = reading;
  const least = collector?.joint === 'slip' ? collector.slip.depth + 15 : 25;
  return {
    stub: length('primaries.stub', given.stub, 30),
    between: length('primaries.between', given.between, 5),
    lastStraight: length('primaries.last_straight', given.last_straight, least),
    jointAtFlange: joint(given.joint_at_flange, flange?.thickness ?? 10, reading),
    leastAngle: angle('primaries.least_angle', given.least_angle, radians(5)),
    largestAngle: angle('primaries.largest_angle', given.largest_angle, radians(150)),
    built: builtOf(given.built, reading),
    byHand: Object.fromEntries(
      Object.entries(given.by_hand ?? {}).map(([id, rows]) => [id, rows as readonly RouteRow[]]),
    ),
  };
}

function builtOf(
  written: NonNullable<Sections['primaries']>['built'],
  reading: Reading,
): PrimariesSpec['built'] {
  const built: Record<string, 'whole' | BuiltTo> = {};
  for (const [id, one] of Object.entries(written ?? {})) {
    if (one === 'whole') {
      built[id] = one;
      continue;
    }
    const { up_to: station, end } = one as { up_to: number; end?: { at: Vector; direction: Vector } };
    const direction = end && unitOf(end.direction, `primaries.built.${id}.end.direction`, reading);
    if (end && !direction) continue;
    built[id] = { station, end: end && direction && { at: end.at, direction } };
  }
  return built;
}

type WrittenJoint = NonNullable<Sections['primaries']>['joint_at_flange'];

function joint(given: WrittenJoint, thickness: number, reading: Reading): FlangeJoint {
  const path = 'primaries.joint_at_flange';
  if (given === undefined) reading.defaults.push({ path, value: 'butt' });
  if (given === undefined || given === 'butt') return { kind: 'butt' };
  const written: Exclude<WrittenJoint, string | undefined> =
    given === 'through' ? { through: {} } : given === 'socket' ? { socket: {} } : given;
  if (written.socket && written.through) {
    reading.error('job/contradiction', path, {
      what: `${path} names both a socket and through`,
      why: "the tube's end would stand in two places",
      fix: 'take out one of them',
    });
  }
  if (written.socket) {
    const depth = reading.length(`${path}.socket.depth`, written.socket.depth, thickness / 2);
    return { kind: 'socket', depth, gap: reading.length(`${path}.socket.gap`, written.socket.gap, GAP) };
  }
  if (written.through) {
    const recess = reading.length(`${path}.through.recess`, written.through.recess, 2);
    return { kind: 'through', recess, gap: reading.length(`${path}.through.gap`, written.through.gap, GAP) };
  }
  reading.error('job/missing-key', path, {
    what: `${path} names no joint`,
    why: 'the joint decides the hole in the flange and the sawn length of the tube',
    fix: 'write one of: butt, through, { socket: { depth: 5 } }, { through: { recess: 2 } }',
  });
  return { kind: 'butt' };
}

type WrittenFlow = NonNullable<Sections['collector']>['flow'];

/** `{ down, heading }`: below level, and seen from above from out toward right. */
const flowByAngles = (down: number, heading: number): Vector => [
  Math.cos(down) * Math.sin(heading),
  -Math.sin(down),
  Math.cos(down) * Math.cos(heading),
];

function flowOf(given: WrittenFlow, reading: Reading): Vector | undefined {
  if (Array.isArray(given)) return unitOf(given as unknown as Vector, 'collector.flow', reading);
  const { down, heading } = given as { down: number; heading?: number };
  const level = Math.abs(Math.cos(down)) > Math.sin(radians(1));
  return flowByAngles(down, level ? reading.angle('collector.flow.heading', heading, 0) : (heading ?? 0));
}

/** The collector with its defaults (common practice): slip depth 45, gap 0.4, half angle 8 degrees. */
export function completeCollector(
  written: Sections['collector'],
  tube: Tube | undefined,
  reading: Reading,
): CollectorSpec | undefined {
  if (!written) return undefined;
  const { length, angle, word } = reading;
  const flow = flowOf(written.flow, reading);
  if (!flow) return undefined;
  const kind = word('collector.kind', written.kind, 'merge');
  const mouth = word('collector.joint', written.joint, 'slip');
  const slips = mouth === 'slip';
  const wall = Math.max(tube?.wall ?? 0, 1.6);
  // A welded collector has no sleeves, and nothing is taken for them.
  const slip = slips
    ? {
        depth: length('collector.slip.depth', written.slip?.depth, 45),
        gap: length('collector.slip.gap', written.slip?.gap, GAP),
        sleeveWall: length('collector.slip.sleeve_wall', written.slip?.sleeve_wall, wall),
      }
    : {
        depth: written.slip?.depth ?? 45,
        gap: written.slip?.gap ?? GAP,
        sleeveWall: written.slip?.sleeve_wall ?? wall,
      };
  const room = slips ? slip.gap + 2 * slip.sleeveWall + 1 : 4;
  const { body, may_move: move } = written;
  return {
    kind,
    joint: mouth,
    at: written.at,
    flow,
    halfAngle: angle('collector.half_angle', written.half_angle, radians(8)),
    clocking: written.clocking,
    slotGap: length('collector.slot_gap', written.slot_gap, room),
    slip,
    body: {
      length: length('collector.body.length', body?.length, 160),
      diameter: body?.diameter,
      clear: length('collector.body.clear', body?.clear, 4),
    },
    outlet: written.outlet,
    mayMove: reading.other(
      'collector.may_move',
      move && { along: move.along ?? 0, across: move.across ?? 0, tilt: move.tilt ?? 0 },
      { along: 0, across: 0, tilt: 0 },
      'not at all',
    ),
    slots: reading.other(
      'collector.slots',
      written.slots as CollectorSpec['slots'] | undefined,
      'shortest',
      'shortest',
    ),
  };
}

/** The length window: a target is a window of no width. */
export function completeLength(written: Sections['length'], reading: Reading): Job['length'] {
  if (!written) return undefined;
  const { target, between } = written;
  if (target !== undefined && between !== undefined) {
    reading.error('job/contradiction', 'length.between', {
      what: 'length has both a target and between',
      why: 'the primaries can only be cut to one of them',
      fix: 'take out one of them',
    });
  }
  const from = target ?? between?.[0];
  const to = target ?? between?.[1];
  if (from === undefined || to === undefined) {
    reading.error('job/missing-key', 'length.target', {
      what: 'length says neither target nor between',
      why: 'the router must know how long the primaries may be',
      fix: 'add a line under length: `target: 800`, or `between: [700, 850]`',
    });
    return undefined;
  }
  return { from, to, spread: reading.length('length.spread', written.spread, 2) };
}

/** An angle for messages: `12 deg`. */
export const deg = (angle: number): string => `${tidy(degrees(angle), 2)} deg`;
