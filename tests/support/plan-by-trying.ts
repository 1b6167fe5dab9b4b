import type { BendRow, CentreLineRow } from '../../src/geom/centre-line.js';
import type { Rack, RackBend } from '../../src/job/rack.js';

/*
 * A header cut by trying everything, from its rows and its rack as they are written: which legs each bend keeps,
 * where each straight is welded, which piece comes out of which bend or stick. Nothing of the planner is used.
 *
 * What may be tried is what a saw may do: a bend that some stock holds is not parted; one that none holds is
 * parted into as few as will do, evenly or where a part is as large as a stock bend, and a part is never a whole
 * stock bend; an unused leg gives one insert. Lengths in mm, angles in rad.
 */

export interface Tube {
  readonly rows: readonly CentreLineRow[];
  readonly noWeld: readonly (readonly [number, number])[];
  readonly intoFlange: number;
  readonly oblique: number;
}

/** A piece of a bend with the legs that it must have. */
export interface BendPiece {
  readonly clr: number;
  readonly angle: number;
  readonly up: number;
  readonly down: number;
  /** Of a bend that is welded inside its arc. */
  readonly part: boolean;
}

/** One way to cut one tube. */
export interface TriedWay {
  readonly bends: readonly BendPiece[];
  readonly inserts: readonly number[];
  /** Some straight has more than one insert: how such a one is divided is not tried out. */
  readonly several: boolean;
}

interface Offer {
  readonly parts: readonly number[];
  readonly up: number;
  readonly upLeast: number;
  readonly down: number;
  readonly downLeast: number;
}

const EPS = 1e-6;
const LEAST_INSERT = 20;
export const LEAST_INSIDE = 12;
const WHOLE = (0.05 * Math.PI) / 180;

export const gapOf = (bend: RackBend, { saw, tube }: Rack): number => {
  const inside = bend.clr - tube.od / 2;
  return Math.asin(saw.kerf / inside) + (2 * saw.dress) / inside;
};
const legOf = (leg: number, rack: Rack): number => Math.max(0, leg - rack.saw.rawTrim);
/** A stock bend's arc, less a cut at each raw face that lies in it. */
export const roomOf = (bend: RackBend, rack: Rack): number =>
  bend.angle - bend.legs.filter((leg) => leg <= rack.saw.rawTrim).length * gapOf(bend, rack);
const sameRadius = (a: number, b: number): boolean => Math.abs(a - b) <= 0.05;

const unlike = <T>(list: readonly T[]): T[] => [
  ...new Map(list.map((one) => [JSON.stringify(one), one])).values(),
];

function offersFor(bend: BendRow, at: number, rack: Rack, tube: Tube): Offer[] {
  const stock = rack.bends.filter((one) => one.quantity > 0 && sameRadius(one.clr, bend.clr));
  const offers: Offer[] = [];
  const inside = bend.clr - rack.tube.od / 2;
  const lacking = Math.max(0, LEAST_INSIDE - inside * bend.angle);
  const offer = (parts: readonly number[], up: number, upLeast: number, down: number, downLeast: number) =>
    void offers.push({ parts, up, upLeast, down, downLeast });
  let held = false;
  for (const one of stock) {
    const [a, b] = one.legs.map((leg) => legOf(leg, rack)) as [number, number];
    if (Math.abs(one.angle - bend.angle) <= WHOLE) {
      offer([bend.angle], a, 0, b, 0);
      offer([bend.angle], b, 0, a, 0);
    }
    if (roomOf(one, rack) < bend.angle - 1e-9) continue;
    held = true;
    for (const leg of [a, b])
      if (leg > 0 && leg >= lacking) {
        offer([bend.angle], leg, lacking, 0, 0);
        offer([bend.angle], 0, 0, leg, lacking);
      }
    if (lacking < EPS) offer([bend.angle], 0, 0, 0, 0);
  }
  if (held || offers.length > 0 || stock.length === 0) return unlike(offers);
  const rooms = stock.map((one) => roomOf(one, rack));
  const largest = Math.max(...rooms);
  if (largest <= 0) return [];
  const count = Math.ceil(bend.angle / largest - 1e-9);
  const least = LEAST_INSIDE / inside;
  const partings = [Array.from({ length: count }, () => bend.angle / count)];
  if (count === 2) {
    const edges = edgesOf(tube).map((station) => (station - at) / bend.clr);
    const firsts = [least, bend.angle - least, ...edges, ...rooms, ...rooms.map((room) => bend.angle - room)];
    for (const first of firsts) partings.push([first, bend.angle - first]);
  }
  const legs = (angle: number): number[] => [
    0,
    ...stock
      .filter((one) => roomOf(one, rack) >= angle - 1e-9)
      .flatMap((one) => one.legs.map((leg) => legOf(leg, rack))),
  ];
  for (const parts of partings) {
    if (parts.some((part) => part < least - 1e-9 || part > largest + 1e-9)) continue;
    let station = at;
    const welds = parts.slice(0, -1).map((part) => (station += part * bend.clr));
    if (welds.some((weld) => !mayStand(weld, tube))) continue;
    for (const up of legs(parts[0] ?? 0))
      for (const down of legs(parts.at(-1) ?? 0)) offer(parts, up, 0, down, 0);
  }
  return unlike(offers);
}

const edgesOf = ({ noWeld }: Tube): number[] => noWeld.flatMap(([from, to]) => [from, to]);

const mayStand = (station: number, { noWeld }: Tube): boolean =>
  noWeld.every(([from, to]) => station <= from + EPS || station >= to - EPS);

/** A straight shared out: what the leg before it and the leg behind it give, and the inserts between. */
interface Shared {
  readonly before: number;
  readonly inserts: readonly number[];
  readonly behind: number;
}

/** The ways to share out a straight of `s` that begins at station `at`, with as few inserts as will do. */
function sharesOf(
  s: number,
  at: number,
  before: Offer | undefined,
  behind: Offer | undefined,
  rack: Rack,
  tube: Tube,
): Shared[] {
  const sticks = rack.straights.filter(({ quantity }) => quantity > 0);
  const longest = Math.max(0, ...sticks.map(({ length }) => length - 2 * rack.saw.rawTrim));
  const [a, aLeast] = [before?.down ?? 0, before?.downLeast ?? 0];
  const [b, bLeast] = [behind?.up ?? 0, behind?.upLeast ?? 0];
  // In the plate or in the oblique cut's short side there is no tube to hold, to weld or to bend.
  const sunk = before ? 0 : tube.intoFlange + 2 * tube.oblique;
  const spots = new Set<number>();
  for (const base of [0, s, a, aLeast, s - b, s - bLeast, sunk, ...edgesOf(tube).map((z) => z - at)])
    for (let i = 0; i <= 3; i++)
      for (let j = 0; i + j <= 3; j++)
        for (const sign of [1, -1]) {
          const x = base + sign * (i * LEAST_INSERT + j * longest);
          if (x >= -EPS && x <= s + EPS) spots.add(Math.min(s, Math.max(0, x)));
        }
  const places = [...spots].filter((x) => mayStand(x + at, tube));
  const starts = before ? places.filter((x) => x >= aLeast - EPS && x <= a + EPS) : [0];
  const ends = behind ? places.filter((x) => s - x >= bLeast - EPS && s - x <= b + EPS) : [s];
  if (before && behind) {
    const meet = starts.filter((x) => ends.some((y) => Math.abs(x - y) < EPS)).sort((x, y) => x - y);
    const found = unlike([meet[0], meet.at(-1)].filter((x) => x !== undefined));
    if (found.length > 0) return found.map((x) => ({ before: x, inserts: [], behind: s - x }));
  } else if (before && s <= a + EPS && s >= aLeast - EPS) return [{ before: s, inserts: [], behind: 0 }];
  else if (behind && s <= b + EPS && s >= sunk + bLeast - EPS) return [{ before: 0, inserts: [], behind: s }];
  const joins = (x: number, y: number, first: boolean): boolean =>
    y - x >= LEAST_INSERT + (first ? sunk : 0) - EPS && y - x <= longest + EPS;
  let here = starts.map((x) => [x]);
  for (let n = 1; n <= 12 && here.length > 0; n++) {
    const found: Shared[] = [];
    for (const path of here)
      for (const y of ends)
        if (joins(path.at(-1) ?? 0, y, n === 1)) {
          const welds = [...path, y];
          const inserts = welds.slice(1).map((to, i) => to - (welds[i] ?? 0));
          found.push({ before: path[0] ?? 0, inserts, behind: s - y });
        }
    const total = (one: Shared): number => one.inserts.reduce((sum, x) => sum + x, 0);
    const least = Math.min(...found.map(total));
    if (found.length > 0) return found.filter((one) => total(one) <= least + EPS).slice(0, n === 1 ? 4 : 1);
    const next = new Map<number, number[]>();
    for (const path of here)
      for (const y of places) {
        if (!joins(path.at(-1) ?? 0, y, n === 1)) continue;
        const known = next.get(y);
        if (known === undefined || y - (path[0] ?? 0) < y - (known[0] ?? 0)) next.set(y, [...path, y]);
      }
    here = [...next.values()];
  }
  return [];
}

/** Bends that run on in one plane with nothing between are one, where a stock bend can be both. */
function course(tube: Tube, rack: Rack): { straights: number[]; bends: BendRow[] } {
  const straights: number[] = [];
  const bends: BendRow[] = [];
  for (const row of tube.rows) {
    if ('straight' in row) {
      straights.push(row.straight + (straights.length === 0 ? tube.intoFlange + tube.oblique : 0));
      continue;
    }
    const last = bends.at(-1);
    const together = (last?.angle ?? 0) + row.angle;
    const one = rack.bends.some(
      (stock) => stock.quantity > 0 && sameRadius(stock.clr, row.clr) && roomOf(stock, rack) >= together,
    );
    const turned = Math.min(row.clock % (2 * Math.PI), (2 * Math.PI - row.clock) % (2 * Math.PI));
    const runsOn = last && straights.at(-1) === 0 && last.clr === row.clr && turned < 1e-9;
    if (runsOn && together < Math.PI && one) {
      straights.pop();
      bends[bends.length - 1] = { ...last, angle: together };
    } else bends.push(row);
  }
  return { straights, bends };
}

/** Every way to cut a tube in at most `most` pieces, less those that ask for more in every respect. */
export function everyWayToCut(tube: Tube, rack: Rack, most = Infinity): { welds: number; ways: TriedWay[] } {
  const { straights, bends } = course(tube, rack);
  let at = -(tube.intoFlange + tube.oblique);
  const stations = straights.map((s, i) => {
    const from = at;
    const bend = bends[i];
    at += s + (bend ? bend.clr * bend.angle : 0);
    return from;
  });
  const offers = bends.map((bend, i) =>
    offersFor(bend, (stations[i] ?? 0) + (straights[i] ?? 0), rack, tube),
  );
  const known = new Map<string, Shared[]>();
  const shared = (i: number, before: Offer | undefined, behind: Offer | undefined): Shared[] => {
    const key = `${i} ${before?.down} ${before?.downLeast} ${behind?.up} ${behind?.upLeast}`;
    const found = known.get(key) ?? sharesOf(straights[i] ?? 0, stations[i] ?? 0, before, behind, rack, tube);
    known.set(key, found);
    return found;
  };
  // The fewest pieces from a straight on, by the offer before it.
  const least = new Map<string, number>();
  const leastFrom = (i: number, before: Offer | undefined): number => {
    const key = `${i} ${before?.down} ${before?.downLeast}`;
    const seen = least.get(key);
    if (seen !== undefined) return seen;
    const inserts = (behind: Offer | undefined): number =>
      shared(i, before, behind)[0]?.inserts.length ?? Infinity;
    const found =
      i === bends.length
        ? inserts(undefined)
        : Math.min(
            Infinity,
            ...(offers[i] ?? []).map((one) => inserts(one) + one.parts.length + leastFrom(i + 1, one)),
          );
    least.set(key, found);
    return found;
  };
  const welds = leastFrom(0, undefined);
  const limit = Math.min(most, welds + 8);
  const ways: TriedWay[] = [];
  const go = (
    i: number,
    before: { offer: Offer; bend: BendRow; up: number } | undefined,
    pieces: BendPiece[],
    inserts: number[],
    several: boolean,
  ): void => {
    const done = pieces.length + inserts.length + (before?.offer.parts.length ?? 0);
    for (const offer of i === bends.length ? [undefined] : (offers[i] ?? [])) {
      const rest = offer ? offer.parts.length + leastFrom(i + 1, offer) : 0;
      for (const share of shared(i, before?.offer, offer)) {
        if (done + share.inserts.length + rest > limit) continue;
        const made = before ? partsOf(before.offer, before.bend, before.up, share.before) : [];
        const all = [...inserts, ...share.inserts];
        const many = several || share.inserts.length > 1;
        const bend = bends[i];
        if (offer && bend) go(i + 1, { offer, bend, up: share.behind }, [...pieces, ...made], all, many);
        else ways.push({ bends: [...pieces, ...made], inserts: all, several: many });
      }
    }
  };
  if (welds < Infinity) go(0, undefined, [], [], false);
  return { welds, ways: undominated(unlike(ways)) };
}

const partsOf = ({ parts }: Offer, { clr }: BendRow, up: number, down: number): BendPiece[] =>
  parts.map((angle, i) => ({
    clr,
    angle,
    up: i === 0 ? up : 0,
    down: i === parts.length - 1 ? down : 0,
    part: parts.length > 1,
  }));

/** Without the ways that need as much as another one in every piece. */
function undominated(ways: TriedWay[]): TriedWay[] {
  const falling = (list: readonly number[]): number[] => [...list].sort((a, b) => b - a);
  const below = (a: TriedWay, b: TriedWay): boolean => {
    if (a.several || b.several || a.bends.length !== b.bends.length || a.inserts.length > b.inserts.length)
      return false;
    const legs = a.bends.every((one, i) => {
      const other = b.bends[i];
      return other?.angle === one.angle && one.up <= other.up + 1e-9 && one.down <= other.down + 1e-9;
    });
    const [mine, others] = [falling(a.inserts), falling(b.inserts)];
    return legs && mine.every((length, i) => length <= (others[i] ?? 0) + 1e-9);
  };
  const kept: TriedWay[] = [];
  for (const way of ways) {
    if (kept.some((other) => below(other, way))) continue;
    for (let i = kept.length; i-- > 0;) if (below(way, kept[i] as TriedWay)) kept.splice(i, 1);
    kept.push(way);
  }
  return kept;
}
