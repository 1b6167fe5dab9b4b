import type { Rack } from '../../src/job/rack.js';
import type { Record_ } from './check-cut-list.js';

/*
 * What becomes of every bend and stick of a cut list, worked out anew from where its pieces lie: what is sawn
 * away, what is left over and has to go back to the rack, and that the stock is on the rack at all. From the
 * record alone (mm, degrees); nothing of the planner is used.
 */

const rad = Math.PI / 180;
const EPS = 1e-6;
type Item = Record_['stock'][number];
type Piece = Record_['pieces'][number];
type Left = Record_['leftovers'][number];

/** What is kept of what is left: a straight from 20 mm on, an arc without legs from 12 mm on its inside. */
const LEAST_STRAIGHT = 20;
const LEAST_INSIDE = 12;

/** How much an oblique first face takes beyond the tube's axis. */
const beyondAxis = (piece: Piece, od: number): number =>
  piece.face ? (od / 2) * Math.tan(piece.face.lean * rad) : 0;

/** Complaints about stock that is not on the rack, or more of it than there is. */
export function rackComplaints(record: Record_, rack: Rack): string[] {
  const bad: string[] = [];
  const used = new Map<string, number>();
  for (const item of record.stock) {
    if (item.rack.startsWith('left of ')) continue;
    used.set(item.rack, (used.get(item.rack) ?? 0) + 1);
    const bend = rack.bends.find(({ path }) => path === item.rack);
    const stick = rack.straights.find(({ path }) => path === item.rack);
    const alike = bend
      ? Math.abs(bend.clr - (item.clr ?? NaN)) < EPS &&
        Math.abs(bend.angle / rad - (item.angle ?? NaN)) < EPS &&
        bend.legs.every((leg, i) => Math.abs(leg - (item.legs?.[i] ?? NaN)) < EPS)
      : Math.abs((stick?.length ?? NaN) - (item.length ?? NaN)) < EPS;
    if (!alike) bad.push(`${item.id}: the rack has another ${item.rack}`);
    if (item.price !== (bend ?? stick)?.price) bad.push(`${item.id}: price`);
    if ((used.get(item.rack) ?? 0) > ((bend ?? stick)?.quantity ?? 0)) bad.push(`${item.rack}: too many`);
  }
  const { kerf, dress, raw_trim: trim } = record.saw;
  if (kerf !== rack.saw.kerf || dress !== rack.saw.dress || trim !== rack.saw.rawTrim)
    bad.push('another saw');
  return bad;
}

/** Complaints about leftovers: every item's are worked out anew and held against those that are told. */
export function leftoverComplaints(record: Record_, od: number, taken: readonly Left[] = []): string[] {
  return record.stock.flatMap((item) => {
    const on = record.pieces.filter(({ stock }) => stock === item.id);
    const told = [...record.leftovers, ...taken].filter(({ stock }) => stock === item.id);
    const due =
      item.length === undefined ? leftOfBend(item, on, record, od) : leftOfStick(item, on, record, od);
    if (typeof due === 'string') return [`${item.id}: ${due}`];
    const rest = [...due];
    // Held against each other as numbers: their texts would part at the edge of a rounding.
    const found = told.every((one) => {
      const i = rest.findIndex((other) => alikeLeft(one, other));
      return i >= 0 && rest.splice(i, 1).length > 0;
    });
    const [a, b] = [told, due].map((list) => list.map(asText).join(' + '));
    return found && rest.length === 0 ? [] : [`${item.id}: left over ${a}; due ${b}`];
  });
}

const numbersOf = ({ length, angle = NaN, legs = [NaN, NaN] }: Left): readonly number[] =>
  length === undefined ? [angle, ...legs] : [length];

function alikeLeft(one: Left, other: Left): boolean {
  const [a, b] = [numbersOf(one), numbersOf(other)];
  return a.length === b.length && a.every((x, i) => Math.abs(x - (b[i] ?? NaN)) < EPS);
}

const asText = ({ length, angle, legs }: Left): string => {
  const said = (x = NaN): string => (Math.abs(x) < 5e-6 ? '0' : x.toFixed(5));
  return length === undefined ? `${said(angle)} deg (${said(legs?.[0])}, ${said(legs?.[1])})` : said(length);
};

const straightLeft = (item: Item, length: number): Left[] =>
  length >= LEAST_STRAIGHT - 1e-9 ? [{ stock: item.id, length }] : [];

function leftOfStick(item: Item, on: readonly Piece[], { saw }: Record_, od: number): Left[] | string {
  const gap = saw.kerf + 2 * saw.dress;
  const spans = on.map((p) => [p.from - beyondAxis(p, od), p.to] as const).sort((a, b) => a[0] - b[0]);
  let at = saw.raw_trim;
  for (const [from, to] of spans) {
    if (Math.abs(from - at) > EPS) return `a piece begins at ${from}, not at ${at}`;
    at = to + gap;
  }
  const left = (item.length ?? 0) - at;
  return left - saw.raw_trim >= LEAST_STRAIGHT - 1e-9 ? [{ stock: item.id, length: left }] : [];
}

function leftOfBend(item: Item, on: readonly Piece[], { saw }: Record_, od: number): Left[] | string {
  const legs = item.legs ?? [0, 0];
  const [clr, angle] = [item.clr ?? 0, item.angle ?? 0];
  const inside = clr - od / 2;
  const gap = saw.kerf + 2 * saw.dress;
  const arcGap = Math.asin(saw.kerf / inside) / rad + (2 * saw.dress) / inside / rad;
  const kept = (piece: Piece): number => Math.max(piece.leg_up + beyondAxis(piece, od), piece.leg_down);

  const whole = on.find(({ end, kind }) => kind === 'bend' && end === 'whole');
  if (whole) {
    const up = whole.leg_up + beyondAxis(whole, od);
    const [a, b] = whole.reversed ? [whole.leg_down, up] : [up, whole.leg_down];
    return [a, b].flatMap((leg, i) => straightLeft(item, (legs[i] ?? 0) - leg - gap));
  }
  const found: Left[] = [];
  // What stands of each leg beyond its pieces: undefined where a bend piece has it.
  const standing = ([0, 1] as const).map((end) => {
    const name = end === 0 ? 'A' : 'B';
    const bend = on.find((p) => p.kind === 'bend' && p.end === name && kept(p) > EPS);
    if (bend) {
      found.push(...straightLeft(item, (legs[end] ?? 0) - kept(bend) - gap));
      return undefined;
    }
    const insert = on.find((p) => p.kind === 'straight' && p.end === name);
    return insert ? Math.max(0, (legs[end] ?? 0) - insert.to - gap) : (legs[end] ?? 0);
  });
  const arcs = on
    .filter(({ kind }) => kind === 'bend')
    .map((p) => {
      const [from, to] = p.arc_from_tangent;
      return p.end === 'B' ? [angle - to, angle - from] : [from, to];
    })
    .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
  const [first, last] = [arcs[0], arcs.at(-1)];
  if (!first || !last) return 'no bend piece';
  const piece = (from: number, to: number, legA: number, legB: number): void => {
    const arc = to - from;
    const legged = legA + legB > EPS;
    if (arc > 1e-7 && (legged || inside * arc * rad > LEAST_INSIDE + EPS))
      found.push({ stock: item.id, clr, angle: arc, legs: [legA, legB] });
    // Without an arc on it a leg is a straight, cut off where the arc begins.
    else for (const leg of [legA, legB]) found.push(...straightLeft(item, leg - gap));
  };
  if (standing[0] !== undefined) piece(0, (first[0] ?? 0) - arcGap, standing[0], 0);
  arcs.slice(1).forEach(([from = 0], i) => piece((arcs[i]?.[1] ?? 0) + arcGap, from - arcGap, 0, 0));
  if (standing[1] !== undefined) piece((last[1] ?? 0) + arcGap, angle, 0, standing[1]);
  return found;
}

/** Welds: each of the kind that its place says, none where none may stand. */
export function weldComplaints(
  record: Record_,
  tubes: readonly {
    readonly id: string;
    readonly arcs: readonly (readonly [number, number])[];
    readonly noWeld: readonly (readonly [from: number, to: number, ...unknown[]])[];
  }[],
): string[] {
  return record.welds.flatMap(({ id, primary, at, kind }): string[] => {
    const tube = tubes.find((one) => one.id === primary);
    if (!tube || kind === 'collector') return [];
    if (kind === 'flange') return at === 0 ? [] : [`${id}: the flange is at ${at}`];
    const within = tube.arcs.some(([from, to]) => at > from + EPS && at < to - EPS);
    const edge = tube.arcs.some((arc) => arc.some((end) => Math.abs(end - at) <= EPS));
    const due = within ? 'in-arc' : edge ? 'arc-end' : 'straight';
    const said = kind === due ? [] : [`${id} at ${at} is told as ${kind}, and is ${due}`];
    const shut = tube.noWeld.find(([from, to]) => at > from + 2 * EPS && at < to - 2 * EPS);
    return shut ? [...said, `${id} at ${at} stands between ${shut.join(' and ')}`] : said;
  });
}
