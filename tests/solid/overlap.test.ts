import { describe, expect, test } from 'vitest';
import { circleLoop } from '../../src/geom/loops.js';
import { sharedArea } from '../../src/solid/overlap.js';
import { ellipseLoop, roundedRectangle } from '../support/plates.js';

describe('area two contours share', () => {
  test('two circles against the textbook lens 2 r^2 acos(d / 2r) - d / 2 sqrt(4 r^2 - d^2)', () => {
    const [r, d] = [21.2, 17];
    const lens = 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
    expect(sharedArea(circleLoop([3, 4], r), circleLoop([3 + d, 4], r))).toBeCloseTo(lens, 4);
    // Turned a quarter: the circles one over the other.
    expect(sharedArea(circleLoop([3, 4], r), circleLoop([3, 4 + d], r))).toBeCloseTo(lens, 4);
  });

  test('circle within a rectangle: the whole circle, exactly', () => {
    expect(sharedArea(roundedRectangle([0, 0], 50, 40, 5), circleLoop([3, 2], 10))).toBe(Math.PI * 100);
    expect(sharedArea(circleLoop([3, 2], 10), roundedRectangle([0, 0], 50, 40, 5))).toBe(Math.PI * 100);
  });

  test('apart: nothing, also where the boxes meet', () => {
    expect(sharedArea(circleLoop([0, 0], 10), circleLoop([40, 0], 10))).toBe(0);
    expect(sharedArea(circleLoop([0, 0], 10), circleLoop([15, 15], 10))).toBe(0);
  });

  test('half of a turned ellipse, cut by a rectangle through its centre: pi a b / 2', () => {
    const ellipse = ellipseLoop([0, 0], 22, 15, 0.7);
    expect(sharedArea(ellipse, roundedRectangle([50, 0], 100, 100, 5))).toBeCloseTo(
      (Math.PI * 22 * 15) / 2,
      4,
    );
    expect(sharedArea(ellipse, roundedRectangle([0, -50], 100, 100, 5))).toBeCloseTo(
      (Math.PI * 22 * 15) / 2,
      4,
    );
  });
});
