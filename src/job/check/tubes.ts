import { tolerance } from '../../base/tolerance.js';
import type { RouteRow } from '../job.js';
import { deg } from '../complete/tubes.js';
import type { Reading } from '../reading.js';
import type { Checked } from './checked.js';

/** What a slip joint wants of straight tube beyond its depth (mm), to be drawn off. Common practice. */
const DRAW_OFF = 15;

export function checkEngine({ job, reading }: Checked): void {
  const { engine, ports, collector } = job;
  if (collector?.slots === 'firing' && engine?.firingOrder === undefined) {
    reading.error('job/engine', 'collector.slots', {
      what: 'collector.slots is firing, but the engine has no firing_order',
      why: 'which neighbours fire in turn is not known',
      fix: 'add it: engine: { cylinders: 4, firing_order: [1, 3, 4, 2] }',
    });
  }
  if (!engine) return;
  const order = engine.firingOrder;
  const missing = Array.from({ length: engine.cylinders }, (_, i) => i + 1).filter(
    (c) => !order?.includes(c),
  );
  if (order && (missing.length > 0 || order.length !== engine.cylinders)) {
    reading.error('job/engine', 'engine.firing_order', {
      what: `engine.firing_order has ${order.length} entries for ${engine.cylinders} cylinders${missing.length > 0 ? `; ${missing.join(', ')} missing` : ''}`,
      why: 'every cylinder fires once a cycle',
      fix: `name each of 1 to ${engine.cylinders} once`,
    });
  }
  if (ports.length > engine.cylinders) {
    reading.warn('job/engine', 'engine.cylinders', {
      what: `the job has ${ports.length} ports, the engine ${engine.cylinders} cylinders`,
      why: 'a cylinder with 2 exhaust ports is rare, so one of the numbers may be wrong',
      fix: `make cylinders at least ${ports.length}, unless it has 2 ports to a cylinder`,
    });
  }
}

export function checkTube({ job, reading }: Checked): void {
  const { tube } = job;
  if (!tube || tube.wall < tube.od / 2) return;
  reading.error('job/wall', 'tube.wall', {
    what: `tube.wall is ${reading.mm(tube.wall)}; half the outside diameter is ${reading.mm(tube.od / 2)}`,
    why: 'no bore is left for the gas',
    fix: `make the wall less than ${reading.mm(tube.od / 2)} (${reading.mm(1.6)} is usual), or check the unit of od`,
  });
}

export function checkPrimaries({ job, written, reading }: Checked): void {
  const { primaries, collector, flange } = job;
  if (!primaries) return;
  const { mm } = reading;
  for (const [id, rows] of Object.entries(primaries.byHand))
    checkRows(rows, `primaries.by_hand.${id}`, reading);
  if (primaries.leastAngle > primaries.largestAngle) {
    reading.error('job/contradiction', 'primaries.least_angle', {
      what: `primaries.least_angle is ${deg(primaries.leastAngle)}, more than the largest of ${deg(primaries.largestAngle)}`,
      why: 'no bend could be made',
      fix: `make it less than ${deg(primaries.largestAngle)}`,
    });
  }
  const joint = primaries.jointAtFlange;
  const deep = joint.kind === 'socket' ? joint.depth : joint.kind === 'through' ? joint.recess : 0;
  if (flange && deep >= flange.thickness) {
    const key = joint.kind === 'socket' ? 'socket.depth' : 'through.recess';
    reading.error('job/joint', `primaries.joint_at_flange.${key}`, {
      what: `primaries.joint_at_flange.${key} is ${mm(deep)}; the flange is ${mm(flange.thickness)} thick`,
      why:
        joint.kind === 'socket'
          ? 'the socket would have no floor'
          : "the tube's end would not reach the plate",
      fix: `make it less than ${mm(flange.thickness)}, such as ${mm(flange.thickness / 2)}`,
    });
  }
  if (collector?.joint !== 'slip') return;
  const { depth } = collector.slip;
  if (primaries.lastStraight < depth) {
    const path =
      written.primaries?.last_straight === undefined ? 'collector.slip.depth' : 'primaries.last_straight';
    reading.error('job/slip', path, {
      what: `primaries.last_straight is ${mm(primaries.lastStraight)}; the slip joint is ${mm(depth)} deep`,
      why: 'a sleeve slides on a straight tube only',
      fix: `make it at least ${mm(depth + DRAW_OFF)}, or the slip depth at most ${mm(Math.max(primaries.lastStraight - DRAW_OFF, 0))}`,
    });
  } else if (primaries.lastStraight < depth + DRAW_OFF) {
    reading.warn('job/short-straight', 'primaries.last_straight', {
      what: `primaries.last_straight is ${mm(primaries.lastStraight)}; ${mm(depth + DRAW_OFF)} is usual for a slip joint ${mm(depth)} deep`,
      why: 'the sleeve meets the bend before the collector is off',
      fix: `make it ${mm(depth + DRAW_OFF)}`,
    });
  }
}

/** Straights and bends in turn, a straight first and last. */
function checkRows(rows: readonly RouteRow[], path: string, reading: Reading): void {
  const wrong = rows.findIndex((row, i) => 'straight' in row !== (i % 2 === 0));
  const index = wrong >= 0 ? wrong : rows.length % 2 === 0 ? rows.length - 1 : -1;
  if (index < 0) return;
  reading.error('job/route-rows', `${path}.${index}`, {
    what: `row ${index + 1} of ${path} is a ${'straight' in (rows[index] ?? {}) ? 'straight' : 'bend'}${wrong < 0 ? ', and the last' : ''}`,
    why: 'a route is straights and bends in turn, and begins and ends with a straight',
    fix:
      wrong < 0
        ? 'add a row after it, such as { straight: 60 }'
        : 'put a row between, such as { straight: 0 } between two bends, or join two straights to one',
  });
}

export function checkCollector({ job, written, reading }: Checked): void {
  const { collector, ports } = job;
  if (!collector) return;
  const { mm } = reading;
  if (collector.joint === 'slip' && ports.length > 1) {
    const { gap, sleeveWall } = collector.slip;
    const room = collector.slotGap - gap - 2 * sleeveWall;
    const told = {
      what: `collector.slot_gap is ${mm(collector.slotGap)}; 2 sleeve walls of ${mm(sleeveWall)} and the gap of ${mm(gap)} leave ${mm(room)} between the sleeves`,
      why: 'neighbouring sleeves run into each other, or cannot be welded round',
      fix: `make it at least ${mm(gap + 2 * sleeveWall + 1)}`,
    };
    // Sums of the user's own decimals must not fail by their last digit.
    const least = 1 - tolerance.samePoint;
    if (room < 0) reading.error('job/sleeves', 'collector.slot_gap', told);
    else if (room < least) reading.warn('job/sleeves', 'collector.slot_gap', told);
  }
  if (typeof collector.slots === 'string' || ports.length === 0) return;
  const names = ports.map((_, i) => `S${i + 1}`);
  const listed = collector.slots;
  const stray = listed.findIndex((slot, i) => !names.includes(slot) || listed.indexOf(slot) !== i);
  if (listed.length === names.length && stray < 0) return;
  reading.error(
    'job/slots',
    stray < 0 || !written.collector ? 'collector.slots' : `collector.slots.${stray}`,
    {
      what: `collector.slots lists ${listed.join(', ')} for ${ports.length} primaries`,
      why: 'every primary ends in a slot of its own',
      fix: `name each of ${names.join(', ')} once, in the order of the primaries`,
    },
  );
}

export function checkLength({ job, reading }: Checked): void {
  const { length, primaries } = job;
  if (!length) return;
  const { mm } = reading;
  if (length.from > length.to) {
    reading.error('job/length', 'length.between', {
      what: `length.between goes from ${mm(length.from)} down to ${mm(length.to)}`,
      why: 'no length lies between them',
      fix: `write the least first: [${mm(length.to)}, ${mm(length.from)}]`,
    });
    return;
  }
  const least = (primaries?.stub ?? 0) + (primaries?.lastStraight ?? 0);
  if (length.to >= least) return;
  reading.error('job/length', 'length', {
    what: `length is at most ${mm(length.to)}; the first and last straight alone take ${mm(least)}`,
    why: 'no primary can be that short',
    fix: `make it more than ${mm(least)}, or shorten stub or last_straight`,
  });
}
