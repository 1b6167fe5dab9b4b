import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { designFlanges } from '../../src/design/flange/flange.js';
import { designStrongbacks } from '../../src/design/strongback.js';
import { chordsOf } from '../../src/geom/chords.js';
import { areaOf, boundsOf, distanceTo, isInside } from '../../src/geom/loops.js';
import { flangeJob, flangeOf } from '../support/flange-job.js';

const sizeOf = (loop: Parameters<typeof boundsOf>[0]): [number, number] => {
  const { left, right, bottom, top } = boundsOf(loop);
  return [right - left, top - bottom];
};

describe('openings of a port flange', () => {
  it('a 42.4 tube leaning 12 deg set through 10 mm needs a hole D / cos a + t tan a long and D wide (+ 0.4 gap)', () => {
    const { part } = flangeOf({ primaries: { joint_at_flange: { through: { gap: 0.4, recess: 2 } } } });
    const [wide, long] = sizeOf(part.openings[0]?.loop ?? []);
    const a = radians(12);
    const exact = 42.8 / Math.cos(a) + 10 * Math.tan(a);
    // The arcs may stand up to 0.01 mm outside the true shadow on each side, never inside it.
    expect(long).toBeGreaterThanOrEqual(exact - 1e-9);
    expect(long).toBeLessThan(exact + 0.021);
    expect(wide).toBeGreaterThanOrEqual(42.8 - 1e-9);
    expect(wide).toBeLessThan(42.8 + 0.021);
  });

  it("a butted tube stands on metal all round: every point of the opening lies in the bore's ellipse", () => {
    const { part, openings } = flangeOf();
    expect(openings[0]?.kind).toBe('port');
    const [r, a] = [19.6, radians(12)];
    for (const [i, opening] of part.openings.entries())
      for (const [x, y] of chordsOf(opening.loop, 0.001))
        expect(((x - 92 * i) / r) ** 2 + (y / (r / Math.cos(a))) ** 2).toBeLessThanOrEqual(1.0011);
  });

  it('a port wider than the bore is cut where the two overlap, and its own outline etched on the metal', () => {
    const shape = { rounded_rectangle: { width: 40, height: 34, corner: 12 } };
    const { part, openings } = flangeOf({ ports: { shape } });
    expect(openings[0]?.kind).toBe('blend');
    const loop = part.openings[0]?.loop ?? [];
    const [r, a] = [19.6, radians(12)];
    const inPort = (x: number, y: number): boolean => {
      const [qx, qy] = [Math.abs(x) - 21 + 13, Math.abs(y) - 18 + 13];
      return Math.hypot(Math.max(qx, 0), Math.max(qy, 0)) + Math.min(Math.max(qx, qy), 0) <= 13;
    };
    // Area common to port (grown by 1) and bore, by counting a grid of 0.05 mm: own second method.
    let cells = 0;
    for (let x = -22; x < 22; x += 0.05)
      for (let y = -22; y < 22; y += 0.05)
        if (inPort(x, y) && (x / r) ** 2 + (y / (r / Math.cos(a))) ** 2 <= 1) cells++;
    expect(Math.abs(areaOf(loop) - cells * 0.0025)).toBeLessThan(2);
    const strokes = part.marks.filter((mark) => mark.name === 'grind P1').flatMap((mark) => mark.strokes);
    expect(strokes.length).toBeGreaterThan(0);
    for (const point of strokes.flat()) {
      expect(isInside(loop, point)).toBe(false);
      expect(distanceTo(loop, point).distance).toBeGreaterThan(0.49);
    }
  });

  it('a socket is a pocket for the tube with its gap, over an opening within the bore', () => {
    const { part } = flangeOf({ primaries: { joint_at_flange: { socket: { depth: 4, gap: 0.4 } } } });
    const [pocket] = part.pockets;
    const a = radians(12);
    expect(pocket?.depth).toBe(4);
    expect(sizeOf(pocket?.loop ?? [])[1]).toBeCloseTo(42.8 / Math.cos(a) + 4 * Math.tan(a), 1);
  });
});

describe('stud holes', () => {
  it.each([
    ['M6', 6.6],
    ['M8', 9],
    ['M10', 11],
  ])('%s takes a hole of %f (ISO 273, medium)', (thread, hole) => {
    const { part } = flangeOf({ studs: { thread }, flange: { boss: 15 } });
    expect(part.holes.map(({ diameter }) => diameter)).toEqual(Array(8).fill(hole));
  });

  it('in 10 mm plate M8 holes are drilled for plasma (K: 1.5 x thickness, plasma design guideline) and cut by waterjet', () => {
    expect(new Set(flangeOf().part.holes.map((hole) => hole.made))).toEqual(new Set(['drilled']));
    const water = flangeOf({ flange: { cut_by: 'waterjet' } });
    expect(new Set(water.part.holes.map((hole) => hole.made))).toEqual(new Set(['cut']));
  });

  it('holes stand where the studs are: pitch 92 to 94 moves the fourth port and its studs by 6 mm', () => {
    const [before, after] = [92, 94].map((pitch) => flangeOf({ ports: { row: { count: 4, pitch } } }).part);
    before?.holes.forEach((hole, i) => {
      const moved = after?.holes[i]?.at ?? [NaN, NaN];
      expect(moved[0] - hole.at[0]).toBeCloseTo(2 * Math.floor(i / 2), 9);
      expect(moved[1]).toBeCloseTo(hole.at[1], 9);
    });
    const [wide] = sizeOf(before?.outline ?? []);
    expect(sizeOf(after?.outline ?? [])[0]).toBeCloseTo(wide + 6, 6);
  });

  it('slotted holes for a hot flange: all but the fixed one longer than wide along the row', () => {
    const { part } = flangeOf({ studs: { slotted: { by: 2, fixed: 1 } } });
    expect(part.holes).toHaveLength(1);
    const slots = part.openings.filter((opening) => opening.name.startsWith('slot'));
    expect(slots).toHaveLength(7);
    for (const slot of slots) {
      expect(sizeOf(slot.loop)[0]).toBeCloseTo(11, 9);
      expect(sizeOf(slot.loop)[1]).toBeCloseTo(9, 9);
    }
  });
});

describe('the plate', () => {
  it('is made in one piece, one per port, or in pairs, each holding its own ports and studs', () => {
    const names = (made_as: string): string[] =>
      (
        designFlanges(flangeJob({ flange: { made_as }, ports: { row: { count: 4, pitch: 130 } } })).value ??
        []
      ).map(({ part }) => `${part.name} ${part.holes.length}`);
    expect(names('one piece')).toEqual(['flange 8']);
    expect(names('each')).toEqual(['flange-1 2', 'flange-2 2', 'flange-3 2', 'flange-4 2']);
    expect(names('pairs')).toEqual(['flange-1-2 4', 'flange-3-4 4']);
  });

  it('a nick takes half a disc of 3 mm out of the edge, up and to the left of port 1', () => {
    const [plain, nicked] = [flangeOf(), flangeOf({ flange: { nick: true } })];
    const gone = areaOf(plain.part.outline) - areaOf(nicked.part.outline);
    expect(gone).toBeGreaterThan(0.4 * Math.PI * 9);
    expect(gone).toBeLessThan(0.6 * Math.PI * 9);
  });

  it('a relief slot leaves the bridge asked for at the top', () => {
    const ports = { row: { count: 4, pitch: 120 } };
    const { part } = flangeOf({ ports, flange: { relief: { width: 3, leave: 12 } } });
    const free = flangeOf({ ports }).part;
    const x = 60;
    const top = Math.max(
      ...chordsOf(free.outline, 0.01)
        .filter((p) => Math.abs(p[0] - x) < 3)
        .map((p) => p[1]),
    );
    const ends = part.outline.filter((piece) => piece.kind === 'arc' && Math.abs(piece.radius - 1.5) < 1e-9);
    expect(ends.length).toBeGreaterThanOrEqual(3);
    const end = ends
      .map((piece) => (piece.kind === 'arc' ? piece.centre : [NaN, NaN]))
      .find((c) => Math.abs((c[0] ?? 0) - x) < 1e-6);
    expect(top - ((end?.[1] ?? NaN) + 1.5)).toBeCloseTo(12, 0);
  });

  it('the strongback is the same outline grown by its margin, studs and no openings', () => {
    const job = flangeJob({ strongback: { thickness: 20, margin: 15 } });
    const [back] = designStrongbacks(job).value ?? [];
    const flange = flangeOf().part;
    expect(back?.openings).toEqual([]);
    expect(back?.holes.map((hole) => hole.at)).toEqual(flange.holes.map((hole) => hole.at));
    const [w, h] = sizeOf(flange.outline);
    expect(sizeOf(back?.outline ?? [])[0]).toBeCloseTo(w + 30, 6);
    expect(sizeOf(back?.outline ?? [])[1]).toBeCloseTo(h + 30, 6);
  });

  it('every mark lies on metal, at least a millimetre off every edge', () => {
    const { part } = flangeOf({ flange: { nick: true } });
    expect(part.marks.map((mark) => mark.name)).toContain('TUBE SIDE');
    expect(part.marks.filter((mark) => mark.name.startsWith('clock zero'))).toHaveLength(4);
    for (const point of part.marks.flatMap((mark) => mark.strokes.flat())) {
      expect(isInside(part.outline, point)).toBe(true);
      for (const loop of [part.outline, ...part.openings.map((opening) => opening.loop)])
        expect(distanceTo(loop, point).distance).toBeGreaterThan(0.85);
    }
  });
});
