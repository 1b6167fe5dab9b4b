import { describe, expect, it } from 'vitest';
import { radians } from '../../src/base/numbers.js';
import { randomFrom } from '../../src/base/random.js';
import type { Vector } from '../../src/base/vectors.js';
import { bendTableOf, bendTableThrough } from '../../src/design/pieces/bend-table.js';
import { centreLineOf, type CentreLineRow } from '../../src/geom/centre-line.js';
import { portClockingZero } from '../../src/geom/clocking-zero.js';
import { intersectionPointsOf, rowsThrough } from '../../src/geom/intersection-points.js';
import { cross, far, plus, size, squared, unit, type V } from '../support/plain-march.js';

/** How far two angles lie apart, whole turns aside (rad). */
const turned = (a: number, b: number): number => Math.abs(2 * Math.sin((a - b) / 2));
const mirror = ([x, y, z]: Vector): Vector => [-x, y, z];

/**
 * The next point from a bond length, a bond angle and a torsion: the natural extension reference frame of
 * J. Parsons et al., Practical conversion from torsion space to Cartesian space, J. Comput. Chem. 26 (2005),
 * 1063 (from memory). Corners of a tube are its atoms: the bond angle is 180 degrees less the bend's, the
 * torsion is the clock, 0 where two bends turn the same way.
 */
function nextAtom(a: V, b: V, c: V, bond: number, angle: number, torsion: number): V {
  const bc = unit(plus(c, b, -1));
  const normal = unit(cross(plus(b, a, -1), bc));
  const third = cross(normal, bc);
  const [x, y, z] = [
    -bond * Math.cos(angle),
    bond * Math.cos(torsion) * Math.sin(angle),
    bond * Math.sin(torsion) * Math.sin(angle),
  ];
  return plus(plus(plus(c, bc, x), third, y), normal, z);
}

describe('rows to XYZ points and back', () => {
  it('10,000 random tubes: exact there and back, mirrored, as a bend table, and by the torsions of chemistry', () => {
    const random = randomFrom(271);
    const worst = { straight: 0, angle: 0, clock: 0, mirrored: 0, table: 0, atoms: 0 };
    const raise = (key: keyof typeof worst, value: number): void => {
      // A value that is no number must not pass for a small one.
      if (!(value <= worst[key])) worst[key] = value;
    };
    for (let i = 0; i < 10_000; i++) {
      const flow = unit([random.between(-1, 1), random.between(-1, 1), random.between(-1, 1)]);
      const at: Vector = [random.between(-300, 300), random.between(-300, 300), random.between(-300, 300)];
      const start = { at, direction: flow, clockReference: portClockingZero(flow) };
      const rows: CentreLineRow[] = [{ straight: random.between(0.5, 200) }];
      for (let b = random.whole(1, 6); b > 0; b--)
        rows.push(
          {
            clr: random.pick([42.4, 63.6, 84.8]),
            angle: radians(random.between(3, 160)),
            clock: radians(random.between(0, 360)),
          },
          { straight: random.chance(0.2) ? 0 : random.between(0.5, 200) },
        );
      const through = intersectionPointsOf(centreLineOf(start, rows));
      const back = rowsThrough(through, start.clockReference) ?? [];
      const image = { points: through.points.map(mirror), clrs: through.clrs };
      const mirrored = rowsThrough(image, mirror(start.clockReference)) ?? [];
      if (back.length !== rows.length || mirrored.length !== rows.length) throw new Error('rows are lost');
      rows.forEach((row, k) => {
        const [one, two] = [back[k], mirrored[k]];
        if ('straight' in row) {
          raise('straight', one && 'straight' in one ? Math.abs(one.straight - row.straight) : NaN);
          raise('mirrored', two && 'straight' in two ? Math.abs(two.straight - row.straight) : NaN);
        } else {
          raise('angle', one && 'clr' in one ? Math.abs(one.angle - row.angle) : NaN);
          raise('clock', one && 'clr' in one ? turned(one.clock, row.clock) : NaN);
          // In the mirror a right hand is a left one: the same bends, clocked the other way.
          raise(
            'mirrored',
            two && 'clr' in two ? turned(two.clock, -row.clock) + Math.abs(two.angle - row.angle) : NaN,
          );
        }
      });
      const [table, own] = [bendTableThrough(image), bendTableOf(rows)];
      own.rows.forEach(({ length, rotation, angle }, k) => {
        const other = table?.rows[k];
        raise(
          'table',
          Math.abs(length - (other?.length ?? NaN)) + turned(rotation, -(other?.rotation ?? NaN)),
        );
        raise('table', Math.abs(angle - (other?.angle ?? NaN)));
      });
      raise('table', Math.abs(own.developed - (table?.developed ?? NaN)));
      // An atom before the start gives the first bend its torsion: it lies on the clock reference's side.
      const corners = through.points as readonly V[];
      const atoms: V[] = [
        plus(corners[0] as V, squared(start.clockReference, flow), 50),
        corners[0] as V,
        corners[1] as V,
      ];
      const bends = rows.filter((row) => 'clr' in row);
      bends.forEach(({ angle, clock }, k) => {
        const [a, b, c] = atoms.slice(-3) as [V, V, V];
        const bond = far(corners[k + 2] as V, corners[k + 1] as V);
        atoms.push(nextAtom(a, b, c, bond, Math.PI - angle, clock));
      });
      raise('atoms', Math.max(...atoms.slice(1).map((atom, k) => far(atom, corners[k] as V))));
    }
    // The steepest: a bend of 160 degrees multiplies what its corner is off by 17.
    expect(worst.straight).toBeLessThan(1e-8);
    expect(worst.angle).toBeLessThan(1e-9);
    expect(worst.clock).toBeLessThan(1e-9);
    expect(worst.mirrored).toBeLessThan(1e-8);
    expect(worst.table).toBeLessThan(1e-8);
    expect(worst.atoms).toBeLessThan(1e-8);
  });
});

describe('single bends and offsets', () => {
  const start = { at: [0, 0, 0], direction: [0, 0, 1], clockReference: [0, 1, 0] } as const;

  it.each([
    [15, 16.6029],
    [30, 32.9218],
    [45, 48.6773],
    [60, 63.6],
    [90, 89.944],
    [120, 110.1584],
    [180, 127.2],
  ])('chord of %i deg at CLR 63.6, by elementary trigonometry worked out to four places', (angle, chord) => {
    const { end } = centreLineOf(start, [
      { straight: 0 },
      { clr: 63.6, angle: radians(angle), clock: 0.3 },
      { straight: 0 },
    ]);
    expect(Math.abs(size(end.at as V) - chord)).toBeLessThan(1e-4);
  });

  it('two bends of 30 deg the opposite ways, 40 mm between: offset 37.0416, run 98.241, length 106.6018', () => {
    // By hand: h = 2 R (1 - cos) + s sin, run = 2 R sin + s cos, length = 2 R angle + s.
    const bend = { clr: 63.6, angle: radians(30) };
    const line = centreLineOf(start, [
      { straight: 0 },
      { ...bend, clock: 0 },
      { straight: 40 },
      { ...bend, clock: Math.PI },
      { straight: 0 },
    ]);
    expect(Math.abs(line.end.at[1] - 37.0416)).toBeLessThan(5e-4);
    expect(Math.abs(line.end.at[2] - 98.241)).toBeLessThan(5e-4);
    expect(Math.abs(line.length - 106.6018)).toBeLessThan(5e-4);
    expect(far(line.end.direction as V, [0, 0, 1])).toBeLessThan(1e-14);
  });

  it("sharp 60 deg offset of 12 in: run 6.9288, travel 13.8564 (a plumbing handbook's worked example)", () => {
    const points: Vector[] = [
      [0, 0, -5],
      [0, 0, 0],
      [0, 12, 6.9288],
      [0, 12, 20],
    ];
    // Sharp corners are bends of no radius, nearly.
    const rows = rowsThrough({ points, clrs: [1e-9, 1e-9] }, [0, 1, 0]) ?? [];
    const [, bend, travel] = rows;
    expect(bend && 'angle' in bend ? Math.abs(bend.angle - radians(60)) : NaN).toBeLessThan(1e-3);
    expect(travel && 'straight' in travel ? Math.abs(travel.straight - 13.8564) : NaN).toBeLessThan(1e-3);
  });
});
