import { describe, expect, it } from 'vitest';
import { flatSeenFrom } from '../../src/base/frames.js';
import { radians } from '../../src/base/numbers.js';
import { distance, size } from '../../src/base/points.js';
import { direction, distance3, dot3, length3, type Vector } from '../../src/base/vectors.js';
import { collectorSlots, pitchRadius, type SlotRules } from '../../src/design/collector-slots.js';

const worked: SlotRules = {
  at: [150, -400, 180],
  flow: [0, -1, 0],
  joint: 'welded',
  halfAngle: radians(8),
  clocking: radians(45),
  slotGap: 5,
};
const near = (found: Vector | undefined, asked: Vector, within: number) =>
  expect(distance3(found ?? [9e9, 0, 0], asked)).toBeLessThan(within);

describe('slots at the collector', () => {
  it('four 42.4 tubes, 5 apart, leaning 8 degrees, against the figures worked by hand', () => {
    const { radius, slots } = collectorSlots(worked, 42.4, 4);
    expect(radius).toBeCloseTo(33.5169, 4);
    // side = (-sin 45, 0, cos 45): 33.5169 x 0.70711 = 23.7; direction (0.09841, -cos 8, -0.09841).
    near(slots[0]?.at, [126.3, -400, 203.7], 1e-9);
    near(slots[0]?.direction, [0.09841, -0.99027, -0.09841], 1e-5);
    near(slots[1]?.at, [126.3, -400, 156.3], 1e-9);
    expect(slots.map((slot) => slot.id)).toEqual(['S1', 'S2', 'S3', 'S4']);
  });

  it('a slip joint runs parallel to the flow', () => {
    for (const { direction: d } of collectorSlots({ ...worked, joint: 'slip' }, 42.4, 4).slots)
      expect(d).toEqual([0, -1, 0]);
  });

  it('six tubes on a flow askew, against slots drawn up apart from this program (to 1e-6 mm)', () => {
    // Drawn from the same rules by other hands: flow and slots of an invented six.
    const flow = direction([-0.504433272305, -0.857536562919, -0.100886654461]);
    const { slots } = collectorSlots(
      {
        at: [30, -430, 190],
        flow,
        joint: 'welded',
        halfAngle: radians(4),
        clocking: radians(176.603760026),
        slotGap: 4,
      },
      42.4,
      6,
    );
    const drawn: [Vector, Vector][] = [
      [
        [30.0, -424.578566113, 143.917811959],
        [-0.503204498207, -0.863598080369, -0.031362215587],
      ],
      [
        [64.696538314, -447.420380372, 164.59054159],
        [-0.555366312085, -0.829258330011, -0.062441024244],
      ],
      [
        [64.696538314, -452.841814259, 210.67272963],
        [-0.555366312084, -0.821107896593, -0.131719708298],
      ],
      [
        [30.0, -435.421433887, 236.082188041],
        [-0.503204498206, -0.847297213533, -0.169919583696],
      ],
      [
        [-4.696538314, -412.579619628, 215.40945841],
        [-0.451042684329, -0.881636963892, -0.138840775039],
      ],
      [
        [-4.696538314, -407.158185741, 169.32727037],
        [-0.451042684329, -0.88978739731, -0.069562090984],
      ],
    ];
    drawn.forEach(([at, along], i) => {
      near(slots[i]?.at, at, 1e-6);
      near(slots[i]?.direction, along, 1e-8);
    });
  });

  it('two tubes on a level flow, clocking -90, against slots drawn up apart from this program', () => {
    const { slots } = collectorSlots(
      {
        at: [-320, -310, 120],
        flow: direction([-0.99503719021, -0.099503719021, 0]),
        joint: 'welded',
        halfAngle: radians(3),
        clocking: radians(-90),
        slotGap: 4,
      },
      42.4,
      2,
    );
    near(slots[0]?.at, [-317.691513719, -333.084862813, 120], 1e-6);
    near(slots[0]?.direction, [-0.998881148608, -0.047291129785, 0], 1e-8);
    near(slots[1]?.at, [-322.308486281, -286.915137187, 120], 1e-6);
    near(slots[1]?.direction, [-0.988465904038, -0.151443575479, 0], 1e-8);
  });

  it('pitch radius of touching tubes in tube radii, against the table of circles packed in a ring', () => {
    // Published table of optimal packings, enclosing ratio 2, 2.155, 2.414, 2.701, 3 = pitch ratio + 1.
    const table: [number, number][] = [
      [2, 1],
      [3, 1.154701],
      [4, 1.414214],
      [5, 1.701302],
      [6, 2],
    ];
    for (const [count, ratio] of table) expect(pitchRadius(2, 0, count)).toBeCloseTo(ratio, 6);
    // Pitch circles of 42.4 tubes: 59.9627 (four), 48.9593 (three).
    expect(2 * pitchRadius(42.4, 0, 4)).toBeCloseTo(59.9627, 4);
    expect(2 * pitchRadius(42.4, 0, 3)).toBeCloseTo(48.9593, 4);
  });

  it('neighbours stand the gap apart for n = 2 to 8, seen counter-clockwise looking upstream', () => {
    for (let n = 2; n <= 8; n++) {
      const { frame, slots, radius } = collectorSlots(
        { ...worked, flow: direction([0.3, -0.9, 0.2]) },
        42.4,
        n,
      );
      slots.forEach((slot, i) => {
        const next = slots[(i + 1) % n];
        if (next === undefined) throw new Error('a slot is missing');
        expect(distance3(slot.at, next.at)).toBeCloseTo(47.4, 9);
        expect(length3(slot.direction)).toBeCloseTo(1, 12);
        expect(dot3(slot.direction, frame.out)).toBeCloseTo(Math.cos(radians(8)), 12);
        const flat = flatSeenFrom(frame, slot.at);
        expect(size(flat)).toBeCloseTo(radius, 9);
        const turn = radians(45) + (2 * Math.PI * i) / n;
        expect(distance(flat, [radius * Math.cos(turn), radius * Math.sin(turn)])).toBeLessThan(1e-9);
      });
    }
  });
});
