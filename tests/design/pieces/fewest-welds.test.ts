import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/base/numbers.js';
import { randomFrom } from '../../../src/base/random.js';
import { fewestWelds } from '../../../src/design/pieces/fewest-welds.js';
import type { NoWeld } from '../../../src/design/pieces/primary.js';
import { cuttingRules } from '../../../src/design/pieces/rules.js';
import { weldCounter } from '../../../src/design/pieces/weld-counter.js';
import type { BendRow, CentreLineRow } from '../../../src/geom/centre-line.js';
import type { Rack, RackBend } from '../../../src/job/rack.js';
import { demoRack, rackOf, randomRack, randomRows } from '../../support/trial-pieces.js';

/*
 * The second method: no dynamic programming, no spans. Every stock bend for every bend, every leg to either
 * side, every number of inserts, welds tried at every place where something begins or ends.
 */
interface Choice {
  pieces: number;
  up: number;
  upLeast: number;
  down: number;
  downLeast: number;
}

const EPS = 1e-6;

/** A stock bend's arc, less what it takes to saw and dress a raw face in it (kerf 2, dress 0.5 each side). */
function roomOf(s: RackBend, rack: Rack): number {
  const inside = s.clr - rack.tube.od / 2;
  const raw = s.legs.filter((leg) => leg <= rack.saw.rawTrim).length;
  return s.angle - raw * (Math.asin(2 / inside) + 1 / inside);
}

function everyChoice(bend: BendRow, at: number, rack: Rack, zones: readonly NoWeld[]): Choice[] {
  const { od } = rack.tube;
  const stock = rack.bends.filter((s) => s.clr === bend.clr);
  const choices: Choice[] = [];
  const room = (s: RackBend): number => roomOf(s, rack);
  const lacking = Math.max(0, 12 - (bend.clr - od / 2) * bend.angle);
  const leg = (x: number): number => Math.max(0, x - rack.saw.rawTrim);
  for (const s of stock) {
    const [a, b] = [leg(s.legs[0]), leg(s.legs[1])];
    if (Math.abs(s.angle - bend.angle) <= radians(0.05))
      for (const [up, down] of [
        [a, b],
        [b, a],
      ] as const)
        choices.push({ pieces: 1, up, upLeast: 0, down, downLeast: 0 });
    if (room(s) < bend.angle - 1e-9) continue;
    if (lacking < EPS) choices.push({ pieces: 1, up: 0, upLeast: 0, down: 0, downLeast: 0 });
    for (const l of [a, b])
      if (l > 0 && l >= lacking) {
        choices.push({ pieces: 1, up: l, upLeast: lacking, down: 0, downLeast: 0 });
        choices.push({ pieces: 1, up: 0, upLeast: 0, down: l, downLeast: lacking });
      }
  }
  if (choices.length > 0 || stock.length === 0) return choices;
  // Parts inside the arc: whole degrees from 1 up, any stock for each.
  const largest = Math.max(...stock.map(room));
  const count = Math.ceil(bend.angle / largest - 1e-9);
  const legsOf = (angle: number): number[] => [
    0,
    ...stock.filter((s) => room(s) >= angle - 1e-9).flatMap((s) => s.legs.map(leg)),
  ];
  const shortest = 12 / (bend.clr - od / 2);
  const part = (angles: number[]): void => {
    if (angles.some((x) => x > largest + 1e-9 || x < shortest - 1e-9)) return;
    let weld = at;
    for (const x of angles.slice(0, -1)) {
      weld += x * bend.clr;
      if (zones.some(([from, to]) => weld > from + EPS && weld < to - EPS)) return;
    }
    for (const up of legsOf(angles[0] ?? 0))
      for (const down of legsOf(angles.at(-1) ?? 0))
        choices.push({ pieces: count, up, upLeast: 0, down, downLeast: 0 });
  };
  if (count === 2) {
    for (let d = 0.5; d < 180; d += 0.5) part([radians(d), bend.angle - radians(d)]);
    for (const s of stock) {
      part([room(s), bend.angle - room(s)]);
      part([bend.angle - room(s), room(s)]);
    }
  } else part(Array.from({ length: count }, () => bend.angle / count));
  return choices;
}

/** Choices that differ only in where the arc is parted count once. */
const unlike = (choices: readonly Choice[]): Choice[] => [
  ...new Map(choices.map((choice) => [JSON.stringify(choice), choice])).values(),
];

/** What the tube needs before the route's start, on its axis: in the flange, and for an oblique cut. */
interface Flange {
  into: number;
  oblique: number;
}

function leastInserts(
  s: number,
  at: number,
  first: boolean,
  last: boolean,
  c: Omit<Choice, 'pieces'>,
  rack: Rack,
  zones: readonly NoWeld[],
  { into, oblique }: Flange,
): number {
  // The flange's seam stands `into + oblique` behind the square end on the axis, and twice the oblique cut on the
  // short side. From there an insert is 20 long, and a leg at least 0.
  const hidden = first ? into + 2 * oblique : 0;
  const longest = Math.max(0, ...rack.straights.map((x) => x.length - 2 * rack.saw.rawTrim));
  const base = [
    0,
    hidden,
    s,
    c.down,
    c.downLeast,
    s - c.up,
    s - c.upLeast,
    ...zones.flatMap(([a, b]) => [a - at, b - at]),
  ];
  const spots = new Set<number>();
  for (const b of base)
    for (let i = 0; i <= 3; i++)
      for (let j = 0; i + j <= 3; j++)
        for (const sign of [1, -1]) {
          const x = b + sign * (i * 20 + j * longest);
          if (x >= -EPS && x <= s + EPS) spots.add(x);
        }
  const places = [...spots];
  const legal = (x: number): boolean => zones.every(([a, b]) => !(x + at > a + EPS && x + at < b - EPS));
  // Here `down` is the leg of the piece before the straight, `up` that of the piece behind it.
  const starts = first ? [0] : places.filter((x) => x >= c.downLeast - EPS && x <= c.down + EPS && legal(x));
  const ends = last ? [s] : places.filter((x) => s - x >= c.upLeast - EPS && s - x <= c.up + EPS && legal(x));
  if (first && !last && s <= c.up + EPS && s - hidden >= c.upLeast - EPS) return 0;
  if (last && !first && s <= c.down + EPS && s >= c.downLeast - EPS) return 0;
  if (!first && !last && starts.some((x) => ends.some((y) => Math.abs(x - y) < EPS))) return 0;
  let here = starts;
  for (let n = 1; n <= 12 && here.length > 0; n++) {
    const joins = (x: number, y: number): boolean =>
      y - Math.max(x, hidden) >= 20 - EPS && y - x <= longest + EPS;
    if (here.some((x) => ends.some((y) => joins(x, y)))) return n;
    here = places.filter((y) => legal(y) && here.some((x) => joins(x, y)));
  }
  return Infinity;
}

function bruteForce(
  rows: readonly CentreLineRow[],
  rack: Rack,
  zones: readonly NoWeld[],
  flange: Flange,
): number {
  // Bends that run on in one plane are one bend, where one stock bend can be both.
  const straights: number[] = [];
  const bends: BendRow[] = [];
  rows.forEach((row) => {
    if ('straight' in row) straights.push(row.straight);
    else {
      const last = bends.at(-1);
      const together = (last?.angle ?? 0) + row.angle;
      const fits = rack.bends.some((s) => s.clr === row.clr && roomOf(s, rack) >= together);
      if (
        last &&
        straights.at(-1) === 0 &&
        last.clr === row.clr &&
        row.clock === 0 &&
        together < Math.PI &&
        fits
      ) {
        straights.pop();
        bends[bends.length - 1] = { ...last, angle: together };
      } else bends.push(row);
    }
  });
  const at: number[] = [0];
  straights.forEach((s, i) => {
    const bend = bends[i];
    at.push((at[i] ?? 0) + s + (bend ? bend.clr * bend.angle : 0));
  });
  const go = (i: number, before: Choice | undefined): number => {
    const beyond = i === 0 ? flange.into + flange.oblique : 0;
    const s = (straights[i] ?? 0) + beyond;
    const from = (at[i] ?? 0) - beyond;
    const bend = bends[i];
    const legs = { down: before?.down ?? 0, downLeast: before?.downLeast ?? 0 };
    if (bend === undefined)
      return leastInserts(s, from, i === 0, true, { ...legs, up: 0, upLeast: 0 }, rack, zones, flange);
    let best = Infinity;
    for (const choice of unlike(everyChoice(bend, from + s, rack, zones))) {
      const n = leastInserts(
        s,
        from,
        i === 0,
        false,
        { ...legs, up: choice.up, upLeast: choice.upLeast },
        rack,
        zones,
        flange,
      );
      if (n < best) best = Math.min(best, n + choice.pieces + go(i + 1, choice));
    }
    return best;
  };
  return go(0, undefined);
}

describe('fewest welds of a primary', () => {
  it('500 random primaries on random racks, half with stretches without welds, a third leaning: as brute force has it', () => {
    const random = randomFrom(41);
    const seen = new Map<number, number>();
    let unlikeWithout = 0;
    for (let i = 0; i < 500; i++) {
      const rack = randomRack(random);
      const rows = randomRows(random, rack);
      let at = 0;
      const zones: NoWeld[] = [];
      for (const row of rows) {
        const length = 'straight' in row ? row.straight : row.clr * row.angle;
        if (random.chance(0.3) && i % 2 === 0) {
          const from = at + random.whole(-10, Math.floor(length));
          zones.push([from, from + random.whole(5, 60)]);
        }
        at += length;
      }
      // Leans of up to 25 deg on tube of 42.4 (21.2 x tan 25 deg = 9.9); sockets.
      const flange = {
        into: i % 5 === 0 ? random.whole(4, 9) : 0,
        oblique: i % 3 === 0 ? random.whole(10, 99) / 10 : 0,
      };
      const expected = bruteForce(rows, rack, zones, flange);
      const bare = bruteForce(rows, rack, zones, { into: flange.into + flange.oblique, oblique: 0 });
      if (bare !== expected) unlikeWithout++;
      const rules = cuttingRules(rack);
      const atFlange = { intoFlange: flange.into, oblique: flange.oblique };
      const found = fewestWelds(rows, rules, { noWeld: zones, ...atFlange });
      const label = `case ${i}: ${JSON.stringify({ rows, bends: rack.bends, sticks: rack.straights, zones, flange })}`;
      expect(found?.welds ?? Infinity, label).toBe(expected);
      seen.set(expected, (seen.get(expected) ?? 0) + 1);
      if (zones.length > 0) continue;
      const straights = rows.flatMap((row) => ('straight' in row ? [row.straight] : []));
      const bends = rows.flatMap((row) => ('straight' in row ? [] : [row]));
      const count = weldCounter(rules, atFlange)(
        straights,
        bends.map((b) => b.clr),
        bends.map((b) => b.angle),
        bends.map((b) => b.clock),
      );
      expect(count, `quick count, ${label}`).toBe(expected);
    }
    // The trial is worth something only if it holds all kinds, and some that cannot be made.
    for (const welds of [1, 2, 3, 4, 5, Infinity])
      expect(seen.get(welds) ?? 0, String(welds)).toBeGreaterThan(10);
    // And some that only the short side decides.
    expect(unlikeWithout).toBeGreaterThan(5);
  });
});

const deg = (angle: number, clr = 63.6, clock = 90): BendRow => ({
  clr,
  angle: radians(angle),
  clock: radians(clock),
});
const welds = (rows: readonly CentreLineRow[], rack = demoRack, noWeld: readonly NoWeld[] = []) =>
  fewestWelds(rows, cuttingRules(rack), { noWeld })?.welds;

describe('counts worked on paper', () => {
  const two = [{ straight: 30 }, deg(90), { straight: 80 }, deg(60), { straight: 300 }];

  it('k bends from half-turn stock, each keeping one leg, with every straight longer than 0: k + 1 at least', () => {
    expect(welds([{ straight: 90 }, deg(90), { straight: 300 }])).toBe(2);
    expect(welds(two)).toBe(3);
    expect(welds([...two.slice(0, 4), { straight: 50 }, deg(40), { straight: 90 }])).toBe(4);
    // A straight of 300 between the bends, which no leg covers, costs one more; one of 0 one less.
    expect(welds([{ straight: 30 }, deg(90), { straight: 300 }, deg(60), { straight: 300 }])).toBe(4);
    expect(welds([{ straight: 30 }, deg(90), { straight: 0 }, deg(60), { straight: 90 }])).toBe(2);
  });

  it('a stock bend of the very angle keeps both legs and saves the insert; half a degree off does not', () => {
    const quarter = rackOf([{ clr: 63.6, angle: radians(90), legs: [103, 103], price: 9 }]);
    const rows = (angle: number) => [{ straight: 90 }, deg(angle), { straight: 90 }];
    expect([welds(rows(90), quarter), welds(rows(90.04), quarter), welds(rows(89.5), quarter)]).toEqual([
      1, 1, 2,
    ]);
    // 90.5 is over the stock: two parts in one plane, the first keeping a leg, the second one too.
    expect(welds(rows(90.5), quarter)).toBe(2);
    expect(fewestWelds(rows(90.5), cuttingRules(quarter, { splitInArc: false }))).toBe(undefined);
  });

  it('two bends of one radius in one plane with no straight between are one; turned over or of two radii they are not', () => {
    const rows = (second: BendRow) => [{ straight: 90 }, deg(50), { straight: 0 }, second, { straight: 200 }];
    expect(welds(rows(deg(40, 63.6, 0)))).toBe(2);
    expect(welds(rows(deg(40, 63.6, 360)))).toBe(2);
    expect(welds(rows(deg(40, 63.6, 180)))).toBe(3);
    expect(welds(rows(deg(40, 42.4, 0)))).toBe(3);
  });

  it('a stretch without welds over the end of the arc takes the leg away from where it would meet the insert', () => {
    // Stub 30 by the leg, then the arc ends at 30 + 63.6 pi / 2 = 129.9: there the insert of 300 would join.
    const rows = [{ straight: 30 }, deg(90), { straight: 300 }];
    expect(welds(rows)).toBe(2);
    // With it shut the leg goes downstream instead, and the stub is an insert.
    expect(welds(rows, demoRack, [[120, 140]])).toBe(3);
    expect(welds(rows, demoRack, [[20, 140]])).toBe(undefined);
  });

  it('a sliver: 12 mm between two bends is made by a leg, but not where the stock has none', () => {
    const rows = [{ straight: 97 }, deg(90), { straight: 12 }, deg(90), { straight: 97 }];
    expect(welds(rows)).toBe(3);
    const elbows = rackOf([{ clr: 63.6, angle: radians(90), legs: [0, 0], price: 9 }]);
    expect(welds(rows, elbows)).toBe(undefined);
    expect(welds([{ straight: 97 }, deg(90), { straight: 20 }, deg(90), { straight: 97 }], elbows)).toBe(5);
  });

  it('a socket and an oblique cut lengthen the stub: leg of 97 covers 90, not 90 + 5 into the socket + 4.5', () => {
    const rows = [{ straight: 90 }, deg(90), { straight: 50 }, deg(60), { straight: 90 }];
    const rules = cuttingRules(demoRack);
    expect(fewestWelds(rows, rules)?.welds).toBe(3);
    expect(fewestWelds(rows, rules, { intoFlange: 5, oblique: 4.5 })?.welds).toBe(3);
    const one = [{ straight: 90 }, deg(90), { straight: 300 }];
    expect(fewestWelds(one, rules, { intoFlange: 5 })?.welds).toBe(2);
    expect(fewestWelds(one, rules, { intoFlange: 5, oblique: 4.5 })?.welds).toBe(3);
    expect(weldCounter(rules, { intoFlange: 5, oblique: 4.5 })([90, 300], [63.6], [Math.PI / 2])).toBe(3);
  });
});

describe('an insert right at a flange that the tube leaves at a lean', () => {
  // Elbows without legs: the first straight is an insert, or cannot be made. 42.4 / 2 x tan 12 deg = 4.506.
  const elbows = rackOf([{ clr: 63.6, angle: radians(90), legs: [0, 0], price: 9 }]);
  const lean = radians(12);
  const oblique = 21.2 * Math.tan(lean);
  const made = (first: number, intoFlange = 0): number | undefined => {
    const rules = cuttingRules(elbows);
    const options = { oblique, intoFlange };
    const found = fewestWelds([{ straight: first }, deg(90), { straight: 40 }], rules, options)?.welds;
    const quick = weldCounter(rules, options)([first, 40], [63.6], [Math.PI / 2]);
    expect(quick).toBe(found ?? Infinity);
    return found;
  };

  /** The shortest line along the wall from the plate to the next seam, of 3600 round the tube, cut by a plane. */
  const shortestWall = (axis: number): number =>
    Math.min(
      ...Array.from({ length: 3600 }, (_, i) => {
        // Points of the wall with 21.2 cos along the lean: the plate's face stands there at -21.2 cos x tan lean.
        const start = -21.2 * Math.cos(radians(i / 10)) * Math.tan(lean);
        return axis - start;
      }),
    );

  it('20 mm is kept on the short side: 24.6 on the axis will do, 24.4 not, in a socket as on the face', () => {
    expect(shortestWall(24.6)).toBeGreaterThan(20);
    expect(shortestWall(24.4)).toBeLessThan(20);
    expect([made(24.6), made(24.4), made(24.6, 8), made(24.4, 8)]).toEqual([3, undefined, 3, undefined]);
  });

  it('an arc may begin where the cut ends on the short side, 4.51 mm from the plate, not before', () => {
    const rules = cuttingRules(demoRack);
    const welds = (first: number): (number | undefined)[] =>
      [0, 6].map((intoFlange) => {
        const options = { oblique, intoFlange };
        const rows = [{ straight: first }, deg(90), { straight: 300 }];
        const quick = weldCounter(rules, options)([first, 300], [63.6], [Math.PI / 2]);
        const found = fewestWelds(rows, rules, options)?.welds;
        expect(quick).toBe(found ?? Infinity);
        return found;
      });
    expect(shortestWall(4.51)).toBeGreaterThan(0);
    expect(shortestWall(4.5)).toBeLessThan(0);
    expect([welds(4.51), welds(4.5)]).toEqual([
      [2, 2],
      [undefined, undefined],
    ]);
  });

  it('a shallow bend keeps 12 mm at its inside with the short side of its leg, and no weld within 20 mm of the plate', () => {
    // 8 deg at CLR 63.6 has 42.4 x 8 deg = 5.92 mm inside: 6.08 of leg beyond the cut, 10.586 on the axis.
    const rules = cuttingRules(demoRack);
    const rows = (first: number) => [{ straight: first }, deg(8), { straight: 90 }];
    expect(fewestWelds(rows(10.6), rules, { oblique })?.welds).toBe(2);
    // With less the leg goes downstream, and the straight is too short for an insert.
    expect(fewestWelds(rows(10.5), rules, { oblique })).toBe(undefined);
    // A straight of 200 in inserts from sticks of 106 - 6: two, the first weld beyond 24.5.
    const short = rackOf([{ clr: 63.6, angle: radians(90), legs: [0, 0], price: 9 }], [{ length: 106, price: 3 }]); // prettier-ignore
    const inserts = (first: number): readonly number[] | undefined =>
      fewestWelds([{ straight: first }], cuttingRules(short), { oblique })?.way[0]?.share.inserts;
    for (const first of [100, 113, 115.4, 195.4]) {
      const [one = 0, ...others] = inserts(first) ?? [];
      // Stock of the first: the axis and the long side; its short side is twice the cut shorter.
      expect(one - 2 * oblique).toBeGreaterThanOrEqual(20 - 1e-9);
      expect(one + others.reduce((sum, x) => sum + x, 0)).toBeCloseTo(first + oblique, 9);
      for (const insert of [one, ...others]) expect(insert).toBeLessThanOrEqual(100 + 1e-9);
      for (const insert of others) expect(insert).toBeGreaterThanOrEqual(20 - 1e-9);
    }
    expect(inserts(195.6)).toHaveLength(3);
  });
});

describe('time', () => {
  it('8 primaries of 4 bends are counted in less than 20 ms, and 1000 quick counts in as much', () => {
    const random = randomFrom(7);
    const rules = cuttingRules(demoRack);
    const primaries = Array.from({ length: 8 }, () => randomRows(random, demoRack, 4));
    const count = weldCounter(rules);
    const arrays = primaries.map((rows) => ({
      straights: rows.flatMap((row) => ('straight' in row ? [row.straight] : [])),
      clrs: rows.flatMap((row) => ('straight' in row ? [] : [row.clr])),
      angles: rows.flatMap((row) => ('straight' in row ? [] : [row.angle])),
    }));
    // The least of several runs: what the work takes, not what else the machine does meanwhile.
    const timed = (work: () => void): number =>
      Math.min(
        ...Array.from({ length: 9 }, () => {
          const from = performance.now();
          work();
          return performance.now() - from;
        }),
      );
    const exact = timed(() => primaries.forEach((rows) => fewestWelds(rows, rules)));
    const quick = timed(() => {
      for (let i = 0; i < 125; i++) for (const a of arrays) count(a.straights, a.clrs, a.angles);
    });
    if (process.env.SHOW_TIMES) console.log({ exact, quick });
    expect(exact).toBeLessThan(20);
    expect(quick).toBeLessThan(20);
  });
});
