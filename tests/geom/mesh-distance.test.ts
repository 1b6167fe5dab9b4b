import { describe, expect, it } from 'vitest';
import { randomFrom } from '../../src/base/random.js';
import { meshDistance } from '../../src/geom/mesh-distance.js';
import { meshSolid } from '../../src/geom/mesh-field.js';
import { openEdgesOf } from '../../src/geom/triangles.js';
import { boxSkin, capsuleSkin, cylinderSkin, flat, toSkin, type Corners } from '../support/meshes.js';
import { toBody, type V } from '../support/plain-march.js';

/** A skin seen from the other side. */
const insideOut = (skin: readonly Corners[]): Corners[] => skin.map(([a, b, c]) => [a, c, b]);

/** Triangles of all sorts, many of them thin, some without area. */
function scraps(seed: number, count: number): Corners[] {
  const random = randomFrom(seed);
  const spot = (by: number): V => [random.between(-by, by), random.between(-by, by), random.between(-by, by)];
  return Array.from({ length: count }, (): Corners => {
    const at = spot(150);
    const near = (by: number): V => spot(by).map((value, i) => value + (at[i] as number)) as unknown as V;
    const b = near(40);
    const kind = random.whole(0, 3);
    const mix = (t: number): V =>
      at.map((value, i) => value + t * ((b[i] as number) - value)) as unknown as V;
    // A whole triangle, one on a line but for rounding, a needle, and one whose corners are two places.
    const c = kind === 0 ? near(40) : kind === 1 ? mix(0.37) : kind === 2 ? near(0.01) : b;
    return [at, b, c];
  });
}

const box = { from: [-80, -60, -40], to: [60, 20, 90] } as const;
const capsule = { from: [-60, 10, 0], to: [90, 60, 30], diameter: 50 } as const;
const cylinder = { from: [-50, -30, 10], to: [70, 40, 25], diameter: 60 } as const;

describe('the distance to a skin of triangles', () => {
  it('of 300 scraps, thin ones and ones without area among them, is that to the nearest of all, one by one', () => {
    const skin = scraps(71, 300);
    const { signed } = meshDistance(flat(skin), false);
    const random = randomFrom(72);
    for (let i = 0; i < 400; i++) {
      const p: V = [random.between(-250, 250), random.between(-250, 250), random.between(-250, 250)];
      const plain = toSkin(p, skin);
      expect(Math.abs(signed(...p) - plain)).toBeLessThan(1e-6);
      // A bound that is given must change nothing, not even one that is wrong.
      for (const most of [plain, plain + 3, plain / 2])
        expect(Math.abs(signed(...p, most) - plain)).toBeLessThan(1e-6);
    }
  });

  it('of a box cut into 5 mm is that of the box, inside and out; of round things within their chords', () => {
    const random = randomFrom(73);
    const chord = (radius: number, step: number): number => radius * (1 - Math.cos(step / radius / 2));
    const each = [
      { body: { box }, skin: boxSkin(box.from, box.to, 5), off: 1e-9 },
      { body: { capsule }, skin: capsuleSkin(capsule.from, capsule.to, 50, 4), off: 2 * chord(25, 4) },
      { body: { cylinder }, skin: cylinderSkin(cylinder.from, cylinder.to, 60, 4), off: chord(30, 4) },
    ];
    for (const { body, skin, off } of each) {
      expect(openEdgesOf(flat(skin))).toBe(0);
      const { signed } = meshDistance(flat(skin), true);
      let inside = 0;
      for (let i = 0; i < 1500; i++) {
        const p: V = [random.between(-130, 130), random.between(-100, 100), random.between(-90, 130)];
        const truth = toBody(body, p);
        expect(Math.abs(signed(...p) - truth)).toBeLessThan(off);
        if (truth < 0) inside++;
      }
      expect(inside).toBeGreaterThan(30);
    }
    // Round ones lie with their corners on the surface: the skin is inside, never outside.
    const around = capsuleSkin(capsule.from, capsule.to, 50, 4, true);
    const { signed } = meshDistance(flat(around), true);
    for (let i = 0; i < 500; i++) {
      const p: V = [random.between(-130, 130), random.between(-100, 100), random.between(-90, 130)];
      expect(signed(...p)).toBeLessThan(toBody({ capsule }, p) + 1e-9);
    }
  });

  it('knows inside from outside where skins overlap, lie within each other, or are turned inside out', () => {
    const random = randomFrom(74);
    const [outer, inner] = [boxSkin([-50, -50, -50], [50, 50, 50]), boxSkin([-20, -20, -20], [20, 20, 20])];
    const beside = boxSkin([30, -40, -40], [90, 40, 40]);
    const within = (p: V, low: number, high: number): boolean => p.every((x) => x > low && x < high);
    const both = meshDistance(flat([...outer, ...beside]), true);
    const hollow = meshDistance(flat([...outer, ...insideOut(inner)]), true);
    const turned = meshDistance(flat(insideOut(outer)), true);
    for (let i = 0; i < 800; i++) {
      const p: V = [random.between(-100, 100), random.between(-60, 60), random.between(-60, 60)];
      const [o, n] = [within(p, -50, 50), within(p, -20, 20)];
      const b = p[0] > 30 && p[0] < 90 && Math.abs(p[1]) < 40 && Math.abs(p[2]) < 40;
      expect(both.signed(...p) < 0).toBe(o || b);
      expect(hollow.signed(...p) < 0).toBe(o && !n);
      expect(turned.signed(...p) < 0).toBe(o);
    }
    // At the very places where rays along the axes or diagonals would graze edges and corners.
    for (const p of [
      [0, 0, 0],
      [0, 0, 49],
      [25, 25, 25],
      [-49, -49, -49],
    ] as readonly V[])
      expect(turned.signed(...p)).toBeLessThan(0);
    for (const p of [
      [0, 0, 51],
      [51, 51, 51],
      [-50.5, 0, 0],
      [150, 50, 50],
    ] as readonly V[])
      expect(turned.signed(...p)).toBeGreaterThan(0);
  });

  it('counts the open edges of a skin: none of a closed one, three for each triangle lost alone', () => {
    const skin = boxSkin(box.from, box.to, 20);
    expect(openEdgesOf(flat(skin))).toBe(0);
    expect(openEdgesOf(flat(skin.slice(1)))).toBe(3);
    const [first, ...others] = skin as [Corners, ...Corners[]];
    // One turned about: all three of its edges run the same way twice.
    expect(openEdgesOf(flat([...insideOut([first]), ...others]))).toBe(3);
    // A corner moved out of its place by a breath.
    const [a, b, c] = first;
    expect(openEdgesOf(flat([[[a[0] + 1e-9, a[1], a[2]], b, c], ...others]))).toBe(4);
    expect(openEdgesOf(flat([...skin, [a, b, b]]))).toBe(0);
    const { signed } = meshDistance(flat(skin.slice(1)), false);
    expect(signed(0, 0, 0)).toBeGreaterThan(19);
  });
});

describe('the same as a field with bounds', () => {
  const skin = [
    ...capsuleSkin(capsule.from, capsule.to, 50, 7),
    ...boxSkin([-90, -70, -30], [-30, 0, 40], 9),
  ];
  const within = 31;

  it('is never above the truth, is the truth up to what is asked, and keeps above that beyond', () => {
    const { signed } = meshDistance(flat(skin), true);
    const { distance, centre, radius, doubt } = meshSolid(flat(skin), true).fieldWithin(within);
    const random = randomFrom(75);
    const seen = { exact: 0, short: 0, inside: 0 };
    for (let i = 0; i < 6000; i++) {
      const far = random.chance(0.2) ? 600 : 160;
      const p: V = [random.between(-far, far), random.between(-far, far), random.between(-far, far)];
      const plain = toSkin(p, i % 10 === 0 ? skin : []);
      const truth = signed(...p);
      if (i % 10 === 0) expect(Math.abs(Math.abs(truth) - plain)).toBeLessThan(1e-6);
      const value = distance(...p, Infinity);
      expect(value).toBeLessThanOrEqual(truth + 1e-9);
      if (truth <= within) {
        expect(Math.abs(value - truth)).toBeLessThan(1e-9);
        seen.exact++;
      } else {
        expect(value).toBeGreaterThan(within);
        if (value < truth - 1) seen.short++;
      }
      if (truth < 0) seen.inside++;
      // No more is asked than whether it is far enough.
      const enough = random.between(-20, 80);
      const told = distance(...p, enough);
      expect(told).toBeLessThanOrEqual(truth + 1e-9);
      if (truth < Math.min(enough, within)) expect(Math.abs(told - truth)).toBeLessThan(1e-9);
      else expect(told).toBeGreaterThanOrEqual(Math.min(enough, within) - 1e-9);
      // The sphere holds it.
      const toCentre = Math.hypot(p[0] - centre[0], p[1] - centre[1], p[2] - centre[2]);
      expect(truth).toBeGreaterThanOrEqual(toCentre - radius - 1e-9);
    }
    expect(doubt).toBe(0);
    // All of it was met.
    expect(Math.min(seen.exact, seen.short, seen.inside)).toBeGreaterThan(100);
  });

  it('answers the same whatever was asked before', () => {
    const random = randomFrom(76);
    const asked = Array.from({ length: 3000 }, (): V => [
      random.between(-200, 200),
      random.between(-200, 200),
      random.between(-200, 200),
    ]);
    const [one, two] = [0, 1].map(() => meshSolid(flat(skin), true).fieldWithin(within));
    const forward = asked.map((p) => one?.distance(...p, Infinity));
    const backward = [...asked].reverse().map((p) => two?.distance(...p, Infinity));
    expect(backward.reverse()).toEqual(forward);
  });

  it('stands off by what the triangles may be off: nearer by that, and told to be in doubt by twice that', () => {
    const [plain, off] = [0, 0.2].map((standOff) =>
      meshSolid(flat(skin), true, standOff).fieldWithin(within),
    );
    for (const p of [
      [0, 0, 0],
      [100, 90, 30],
      [120, 120, 60],
      [0, 50, 60],
    ] as readonly V[]) {
      const truth = plain?.distance(...p, Infinity) ?? NaN;
      if (truth < within) expect(off?.distance(...p, Infinity)).toBeCloseTo(truth - 0.2, 9);
    }
    expect(off?.doubt).toBeCloseTo(0.4, 12);
  });
});
