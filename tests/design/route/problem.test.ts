import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { distance3, type Vector } from '../../../src/base/vectors.js';
import { HeadNotCleared, isRoutable, setProblem } from '../../../src/design/route/index.js';
import { surroundingsOf } from '../../../src/design/route/problem.js';
import { slotOrders } from '../../../src/design/route/slot-orders.js';
import { readJob } from '../../../src/job/index.js';
import { routedJob, wholeJob } from '../../support/jobs.js';
import { routingCase } from '../../support/routing-cases.js';

const drawn = JSON.parse(readFileSync('tests/routing-cases/slots.json', 'utf8')) as Record<
  string,
  { id: string; at: Vector; direction: Vector }[]
>;
const problemOf = (name: string) => {
  const { job, rack } = routingCase(name);
  return setProblem(job, rack);
};
const { rack } = routingCase('i4-easy');
const problemFrom = (text: string) => {
  const { value, problems } = readJob(text);
  if (value === undefined || !isRoutable(value)) throw new Error(JSON.stringify(problems));
  return setProblem(value, rack);
};

describe('a routing problem set from a job', () => {
  it('slots of the eight cases, against slots drawn up apart from this program (1e-6 mm)', () => {
    for (const [name, slots] of Object.entries(drawn)) {
      const problem = problemOf(name);
      expect(problem.slots.map(({ id }) => id)).toEqual(slots.map(({ id }) => id));
      problem.slots.forEach((slot, j) => {
        expect(distance3(slot.at, slots[j]?.at ?? [9, 9, 9])).toBeLessThan(1e-6);
        expect(distance3(slot.direction, slots[j]?.direction ?? [9, 9, 9])).toBeLessThan(1e-8);
      });
    }
  });

  it('a head 10 mm behind ports that lean 20 degrees is waived over 20.44 mm, by the triangle', () => {
    // The axis is clear of it at z = -10 + 8 + 21.2 = 19.2, after 19.2 / cos 20 of it.
    for (const { waiver } of problemOf('i4-easy').starts) {
      expect(waiver.until).toBeGreaterThanOrEqual(19.2 / Math.cos(radians(20)));
      expect(waiver.until).toBeLessThan(19.2 / Math.cos(radians(20)) + 0.011);
      expect(waiver.clearTo).toBe(Infinity);
    }
  });

  it('refuses a port whose axis stays in its own head', () => {
    const text = routedJob
      .replace('{ name: sump,', '{ name: sump, head_of: [P1],')
      .replace('[110, 60, -95]', '[110, 60, 95]');
    expect(() => problemFrom(text)).toThrow(HeadNotCleared);
  });

  it('begins at the flange, and keeps the collector, sleeves and sockets clear where the rules say so', () => {
    const text = wholeJob
      .replace(/ {2}- \{ name: subframe.*\n/, '')
      .replace('slots: shortest', 'slots: [S2, S1, S3, S4]');
    const problem = problemFrom(text);
    // The port's point moved 10 mm square off the face; the axis runs on from there.
    expect(distance3(problem.starts[1]?.at ?? [0, 0, 0], [92, 0, 10])).toBeLessThan(1e-9);
    expect(problem.orders).toEqual([[1, 0, 2, 3]]);
    const { beginnings, middle, lastStraight } = surroundingsOf(problem, 0, 2);
    const names = ({ named }: { readonly named: readonly { readonly name: string }[] }) =>
      named.map(({ name }) => name);
    expect(names(middle)).toContain('sleeve S1');
    expect(names(middle)).not.toContain('sleeve S3');
    expect(names(middle)).toContain('cylinder head');
    expect(beginnings.flatMap(names)).not.toContain('cylinder head');
    expect(names(lastStraight)).not.toContain('collector');
    expect(names(lastStraight)).not.toContain('sleeve S1');
    expect(middle.named.filter(({ name }) => name.startsWith('wrench space'))).toHaveLength(8);
    const socket = middle.named.find(({ name }) => name === 'wrench space of stud 1');
    expect(socket?.clear).toBe(0);
    if (socket?.solid.kind !== 'cylinder') throw new Error('a socket is a cylinder');
    expect(socket.solid.diameter).toBe(25);
    expect(distance3(socket.solid.from, [-33, 20, 10])).toBeLessThan(1e-9);
    const sleeve = middle.named.find(({ name }) => name === 'sleeve S1');
    if (sleeve?.solid.kind !== 'cylinder') throw new Error('a sleeve is a cylinder');
    // OD 42.4, gap 0.4, walls of 1.6 both sides, 45 deep, 1 mm clear.
    expect(sleeve.solid.diameter).toBeCloseTo(46, 9);
    expect(distance3(sleeve.solid.from, sleeve.solid.to)).toBeCloseTo(45, 9);
    expect(sleeve.clear).toBe(1);
  });

  it('firing order 1-3-4-2 round the ring: four rotations, both ways', () => {
    const orders = slotOrders('firing', 4, [1, 3, 4, 2]) ?? [];
    expect(orders).toHaveLength(8);
    for (const order of orders) {
      const turn = [0, 2, 3, 1].map((primary) => order[primary] ?? 9);
      const steps = turn.map((slot, i) => ((turn[(i + 1) % 4] ?? 9) - slot + 4) % 4);
      expect(steps.every((step) => step === steps[0] && (step === 1 || step === 3))).toBe(true);
    }
  });
});
