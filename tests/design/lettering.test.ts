import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { distance, minus, size, type Point } from '../../src/base/points.js';
import { letter, letterCentred, letterRound, letterWidth } from '../../src/design/lettering.js';
import type { Stroke } from '../../src/geom/segments.js';

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.,/+:()_#';

const extent = (strokes: readonly Stroke[]) => {
  const points = strokes.flat();
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] as const;
};

/** The drawing as a set of short steps, so that two drawings can be compared whatever their stroke order. */
const laid = (strokes: readonly Stroke[]): Set<string> => {
  const out = new Set<string>();
  for (const stroke of strokes)
    stroke.slice(1).forEach((to, i) => {
      const from = stroke[i] as Point;
      const steps = Math.ceil(distance(from, to) * 8);
      for (let k = 0; k <= steps; k++)
        out.add(
          [0, 1]
            .map((j) => ((from[j] ?? 0) + ((to[j] ?? 0) - (from[j] ?? 0)) * (k / steps)).toFixed(1))
            .join(),
        );
    });
  return out;
};

describe('single-stroke lettering', () => {
  it('stands between 0 and its height, and within its width, for every character', () => {
    for (const one of ALPHABET) {
      const [left, low, right, high] = extent(letter(one, 12));
      expect(left, one).toBe(0);
      expect(low, one).toBeGreaterThanOrEqual(0);
      expect(high, one).toBeLessThanOrEqual(12);
      expect(right, one).toBeCloseTo(letterWidth(one, 12), 10);
      if (/[A-Z0-9]/.test(one)) expect([low, high], one).toEqual([0, 12]);
    }
  });

  it('runs of text: width adds up, neighbours stay two grid steps apart', () => {
    expect(letterWidth('P1', 6)).toBe(4 + 2 + 2);
    expect(letterWidth('P 1', 6)).toBe(4 + 2 + 2 + 2 + 2);
    expect(letterWidth('', 6)).toBe(0);
    expect(letterWidth('P1-1 120', 12)).toBe(2 * letterWidth('P1-1 120', 6));
    const text = 'SLOT 4 (UP)';
    expect(extent(letter(text, 9))[2]).toBeCloseTo(letterWidth(text, 9), 10);
  });

  it('no two characters are drawn alike, nor nearly: each pair differs over a grid step or more of stroke', () => {
    const drawings = [...ALPHABET].map((one) => [one, laid(letter(one, 6))] as const);
    for (const [a, da] of drawings)
      for (const [b, db] of drawings) {
        if (a >= b) continue;
        const apart = [...da].filter((p) => !db.has(p)).length + [...db].filter((p) => !da.has(p)).length;
        expect(apart, `${a} and ${b}`).toBeGreaterThanOrEqual(8);
      }
  });

  it('clean open shapes: no stroke shorter than a grid step, no corner sharper than 25 degrees', () => {
    for (const one of ALPHABET)
      for (const stroke of letter(one, 6)) {
        expect(stroke.length, one).toBeGreaterThanOrEqual(2);
        stroke.slice(1).forEach((to, i) => {
          const from = stroke[i] as Point;
          expect(distance(from, to), one).toBeGreaterThanOrEqual(1);
          const next = stroke[i + 2];
          if (next === undefined) return;
          const [u, v] = [minus(from, to), minus(next, to)];
          const inside = Math.acos((u[0] * v[0] + u[1] * v[1]) / (size(u) * size(v)));
          expect((inside * 180) / Math.PI, one).toBeGreaterThanOrEqual(25);
        });
      }
  });

  it('folds lower case, accents and long dashes; draws a box for what it has not, and never throws', () => {
    expect(letter('slot é–1', 6)).toEqual(letter('SLOT E-1', 6));
    const square = [
      [0, 0],
      [0, 6],
      [4, 6],
      [4, 0],
      [0, 0],
    ];
    for (const strange of ['@', '\n', '漢', '🔧', '\uD800'])
      expect(letter(strange, 6), strange).toEqual([square]);
    const random = randomFrom(5);
    for (let i = 0; i < 300; i++) {
      const text = String.fromCodePoint(
        ...Array.from({ length: random.whole(0, 12) }, () => random.whole(0, 0x10ffff)),
      );
      for (const point of letter(text, 8).flat()) expect(Number.isFinite(point[0] + point[1])).toBe(true);
      expect(letterWidth(text, 8)).toBeGreaterThanOrEqual(0);
    }
  });

  it('centred and turned a quarter: reads upward, its middle where asked', () => {
    const [left, low, right, high] = extent(letterCentred('HEH', 6, [100, 50], Math.PI / 2));
    expect([left, right]).toEqual([97, 103]);
    expect((low + high) / 2).toBeCloseTo(50, 10);
    expect(high - low).toBeCloseTo(letterWidth('HEH', 6), 10);
    // The foot of the letters lies to the right once they read upward.
    expect(letterCentred('L', 6, [0, 0], Math.PI / 2)[0]?.[1]?.[0]).toBeCloseTo(3, 10);
  });

  it('bent round a circle: feet toward its centre, middle where asked, read clockwise at the same spacing', () => {
    const strokes = letterRound('I-I', 6, [10, 20], 50, Math.PI / 2);
    // I is 2 wide, - is 3, two gaps of 2: 11 mm of arc at radius 50; the dash lies level at the top.
    const dash = strokes.find(
      (stroke) => stroke.length === 2 && stroke.every((p) => Math.abs(p[0] - 10) < 2),
    );
    expect(dash?.map((p) => p[1])).toEqual([expect.closeTo(70, 9), expect.closeTo(70, 9)]);
    const reach = strokes.flat().map((p) => size(minus(p, [10, 20])));
    expect(Math.min(...reach)).toBeCloseTo(47, 9);
    expect(Math.max(...reach)).toBeCloseTo(Math.hypot(53, 1), 9);
    // The upright of the first I stands 4.5 mm of arc counter-clockwise of the top.
    const upright = strokes[1]?.[0] ?? [0, 0];
    expect(Math.atan2(upright[1] - 20, upright[0] - 10)).toBeCloseTo(Math.PI / 2 + 4.5 / 50, 9);
    // Wide circles come to the straight line.
    const flat = letterRound('P1-2', 6, [0, -1e7], 1e7, Math.PI / 2);
    letterCentred('P1-2', 6, [0, 0]).forEach((stroke, i) =>
      stroke.forEach((p, k) => expect(size(minus(flat[i]?.[k] ?? [9, 9], p))).toBeLessThan(1e-4)),
    );
  });
});
