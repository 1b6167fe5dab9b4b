import { far, march, plus, size, type Row, type V } from './plain-march.js';

/*
 * A second look at a cut list, from its record alone (mm, degrees): nothing of the planner is used. Gives back
 * complaints, none where the plan can be sawn and welded up.
 */

export interface Record_ {
  unit: string;
  saw: { kerf: number; dress: number; raw_trim: number };
  stock: {
    id: string;
    rack: string;
    clr?: number;
    angle?: number;
    legs?: [number, number];
    length?: number;
    price: number;
  }[];
  pieces: {
    id: string;
    primary: string;
    kind: 'bend' | 'straight';
    clr: number;
    angle: number;
    leg_up: number;
    leg_down: number;
    clock: number;
    stock: string;
    end?: 'A' | 'B' | 'middle' | 'whole';
    arc_from_tangent: [number, number];
    reversed: boolean;
    length: number;
    from: number;
    to: number;
    into_flange?: number;
    face?: { lean: number; toward: number };
    weld_up: string | null;
    weld_down: string | null;
  }[];
  welds: { id: string; primary: string; at: number; kind: string }[];
  leftovers: { stock: string; clr?: number; angle?: number; legs?: [number, number]; length?: number }[];
  totals: { welds: number; cost: number; bound: number | null; proved: boolean };
}

export interface RouteToMatch {
  id: string;
  start: V;
  direction: V;
  reference: V;
  rows: readonly Row[];
}

const rad = Math.PI / 180;
const EPS = 1e-6;
type Piece = Record_['pieces'][number];

export function complaintsAbout(record: Record_, od: number, routes: readonly RouteToMatch[]): string[] {
  const bad: string[] = [];
  const say = (condition: boolean, text: string): void => {
    if (!condition) bad.push(text);
  };
  const ids = record.pieces.map(({ id }) => id);
  say(new Set(ids).size === ids.length, 'a piece stands twice');
  for (const item of record.stock) stockComplaints(item, record, od, say);
  for (const piece of record.pieces)
    say(
      record.stock.some(({ id }) => id === piece.stock),
      `${piece.id}: no such stock ${piece.stock}`,
    );
  for (const route of routes) primaryComplaints(route, record, od, say);
  const counted = record.welds.filter(({ kind }) => kind !== 'collector').length;
  say(record.totals.welds === counted, `totals.welds ${record.totals.welds}, listed ${counted}`);
  say(record.totals.welds === record.pieces.length, 'one weld a piece');
  const cost = record.stock.reduce((sum, { price }) => sum + price, 0);
  say(Math.abs(cost - record.totals.cost) < 1e-6, `totals.cost ${record.totals.cost}, stock ${cost}`);
  return bad;
}

type Say = (condition: boolean, text: string) => void;

function stockComplaints(item: Record_['stock'][number], record: Record_, od: number, say: Say): void {
  const { kerf, dress, raw_trim: trim } = record.saw;
  const gap = kerf + 2 * dress;
  const on = record.pieces.filter(({ stock }) => stock === item.id);
  const left = record.leftovers.filter(({ stock }) => stock === item.id);
  say(on.length > 0, `${item.id} is bought for nothing`);
  const extra = (piece: Piece): number => (piece.face ? (od / 2) * Math.tan(piece.face.lean * rad) : 0);

  if (item.length !== undefined) {
    const stick = item.length;
    const spans = on.map((p) => [p.from - extra(p), p.to] as const).sort((a, b) => a[0] - b[0]);
    for (const p of on) say(Math.abs(p.to - p.from - p.length) < EPS, `${p.id}: from, to and length`);
    spans.forEach(([from, to], i) => {
      say(from >= trim - EPS && to <= stick - trim + EPS, `${item.id}: a raw end is used`);
      const next = spans[i + 1];
      if (next) say(next[0] - to >= gap - EPS, `${item.id}: no room for the saw`);
    });
    // Pieces + cuts + what is left = the stick.
    const used = spans.reduce((sum, [from, to]) => sum + to - from, 0) + trim + gap * spans.length;
    const back = left.reduce((sum, { length = 0 }) => sum + length, 0);
    if (left.length > 0)
      say(Math.abs(used + back - item.length) < EPS, `${item.id}: ${used} + ${back} of ${item.length}`);
    return;
  }

  const [angle, clr] = [item.angle ?? 0, item.clr ?? 0];
  const legs = item.legs ?? ([0, 0] as [number, number]);
  const inside = clr - od / 2;
  // Two radial faces with a flat saw cut between them, both dressed at the inside of the bend.
  const gapAngle = Math.asin(kerf / inside) / rad + (2 * dress) / inside / rad;
  const arcs: { id: string; from: number; to: number }[] = [];
  const legUsed = [0, 0];
  for (const piece of on) {
    if (piece.kind === 'straight') {
      const end = piece.end === 'A' ? 0 : 1;
      say(piece.end === 'A' || piece.end === 'B', `${piece.id}: which leg?`);
      say(piece.from - extra(piece) >= trim - EPS, `${piece.id}: a raw end is used`);
      say(piece.to + gap <= (legs[end] ?? 0) + EPS, `${piece.id}: longer than the leg`);
      say(Math.abs(piece.to - piece.from - piece.length) < EPS, `${piece.id}: from, to and length`);
      legUsed[end] = (legUsed[end] ?? 0) + 1;
      continue;
    }
    say(Math.abs(piece.clr - clr) < 1e-9, `${piece.id}: CLR`);
    const [from, to] = piece.arc_from_tangent;
    say(Math.abs(to - from - piece.angle) < 1e-7, `${piece.id}: arc and angle`);
    const ext = extra(piece);
    // A tube that leaves the flange by its bend still has the oblique cut's long side on a leg.
    const [up, down] = [piece.leg_up + ext, piece.leg_down];
    if (piece.end === 'whole') {
      say(on.length === 1, `${item.id}: a whole piece shares it`);
      say(Math.abs(piece.angle - angle) <= 0.05 + 1e-9, `${piece.id}: not the stock's angle`);
      const [a, b] = piece.reversed ? [down, up] : [up, down];
      say(
        a <= Math.max(0, legs[0] - trim) + EPS && b <= Math.max(0, legs[1] - trim) + EPS,
        `${piece.id}: legs`,
      );
      continue;
    }
    if (piece.end === 'middle') {
      say(up < EPS && down < EPS, `${piece.id}: a middle piece with a leg`);
      arcs.push({ id: piece.id, from, to });
      say((clr - od / 2) * piece.angle * rad >= 12 - EPS, `${piece.id}: short inside`);
      continue;
    }
    const end = piece.end === 'A' ? 0 : 1;
    legUsed[end] = (legUsed[end] ?? 0) + 1;
    const leg = Math.max(up, down);
    say(Math.min(up, down) < EPS, `${piece.id}: two legs on one end`);
    say(leg > EPS && leg <= (legs[end] ?? 0) - trim + EPS, `${piece.id}: leg ${leg} of ${legs[end]}`);
    say((clr - od / 2) * piece.angle * rad + leg >= 12 - EPS, `${piece.id}: short inside`);
    // The flow enters by the leg upstream: from A that is forward, from B reversed.
    say(piece.reversed === (up > EPS ? end === 1 : end === 0), `${piece.id}: which way round`);
    say(Math.abs(from) < 1e-9, `${piece.id}: an end piece begins at its tangent point`);
    arcs.push({ id: piece.id, from: end === 0 ? from : angle - to, to: end === 0 ? to : angle - from });
  }
  say(
    legUsed.every((n) => n <= 1),
    `${item.id}: a leg used twice`,
  );
  if (arcs.length === 0) return;
  arcs.sort((a, b) => a.from - b.from);
  const raw = legs.map((leg) => leg <= trim);
  say((arcs[0]?.from ?? 0) >= (raw[0] ? gapAngle : 0) - 1e-7, `${item.id}: begins before its arc`);
  say((arcs.at(-1)?.to ?? 0) <= angle - (raw[1] ? gapAngle : 0) + 1e-7, `${item.id}: runs past its arc`);
  arcs.forEach((arc, i) => {
    const next = arcs[i + 1];
    if (next)
      say(
        next.from - arc.to >= gapAngle - 1e-7,
        `${item.id}: no room for the saw between ${arc.id} and ${next.id}`,
      );
  });
  // Pieces + cuts + what is left of the arc = the stock's arc.
  const arcLeft = left.filter((one) => one.clr !== undefined).reduce((sum, one) => sum + (one.angle ?? 0), 0);
  const sawn = arcs.reduce((sum, { from, to }) => sum + to - from, 0);
  if (arcLeft > 0) {
    // One cut a piece, and one more where a raw end in the arc is faced before the first piece.
    const faced = raw[0] && Math.abs((arcs[0]?.from ?? 0) - gapAngle) < 1e-6;
    const cuts = arcs.length + (faced ? 1 : 0);
    say(
      Math.abs(sawn + cuts * gapAngle + arcLeft - angle) < 1e-6,
      `${item.id}: ${sawn} + ${cuts} cuts + ${arcLeft} of ${angle}`,
    );
  }
}

function primaryComplaints(route: RouteToMatch, record: Record_, od: number, say: Say): void {
  const pieces = record.pieces.filter(({ primary }) => primary === route.id);
  const found = march(route.start, route.direction, route.reference, route.rows, 5);
  const into = pieces[0]?.into_flange ?? 0;
  const lengths = pieces.map((p) =>
    p.kind === 'straight' ? p.length : p.leg_up + p.clr * p.angle * rad + p.leg_down,
  );
  const total = lengths.reduce((sum, length) => sum + length, 0) - into;
  say(Math.abs(total - found.length) < EPS, `${route.id}: pieces ${total}, route ${found.length}`);
  for (const p of pieces)
    if (p.kind === 'straight')
      say(
        shortestWall(p, od) >= 20 - EPS,
        `${p.id}: a short insert`,
      );
    else if (p.face) say(p.leg_up === 0 || shortestWall({ ...p, length: p.leg_up }, od) >= -EPS, `${p.id}: arc in its oblique cut`); // prettier-ignore

  // Welds: one at the flange, one at every joint, at the stations where the pieces meet.
  const welds = record.welds.filter(({ primary }) => primary === route.id);
  let at = -into;
  pieces.forEach((piece, i) => {
    const up = welds.find(({ id }) => id === piece.weld_up);
    say(up !== undefined && Math.abs(up.at - (i === 0 ? 0 : at)) < EPS, `${piece.id}: weld up`);
    if (i > 0) say(piece.weld_up === pieces[i - 1]?.weld_down, `${piece.id}: not welded to the piece before`);
    at += lengths[i] ?? 0;
  });

  // Welded up, through their clockings, they end where the route ends.
  const rows = assembled(pieces, into);
  const made = march(route.start, route.direction, route.reference, rows, 5);
  say(far(made.end.at, found.end.at) < EPS, `${route.id}: ends ${far(made.end.at, found.end.at)} mm off`);
  say(far(made.end.flow, found.end.flow) < 1e-8, `${route.id}: ends in another direction`);
  const back = reversed(rows, found, made);
  if (back) say(far(back, route.start) < EPS, `${route.id} reversed: ends ${far(back, route.start)} mm off`);
}

/**
 * The shortest line along the wall of a first straight from the flange's face on, looked at all round the tube,
 * which a plane cuts there at a lean.
 */
function shortestWall(
  p: { length: number; into_flange?: number; face?: { lean: number } },
  od: number,
): number {
  const tangent = p.face ? Math.tan(p.face.lean * rad) : 0;
  const walls = Array.from(
    { length: 360 },
    (_, i) => p.length - (p.into_flange ?? 0) + (od / 2) * Math.cos(i * rad) * tangent,
  );
  return Math.min(...walls);
}

/** Rows of the pieces welded together; a bend made of parts stays several bends with nothing between. */
function assembled(pieces: readonly Piece[], into: number): Row[] {
  const rows: Row[] = [{ straight: -into }];
  const run = (length: number): void => {
    const last = rows.at(-1);
    if (last && 'straight' in last) rows[rows.length - 1] = { straight: last.straight + length };
    else rows.push({ straight: length });
  };
  for (const p of pieces) {
    if (p.kind === 'straight') run(p.length);
    else {
      run(p.leg_up);
      rows.push({ clr: p.clr, angle: p.angle, clock: p.clock });
      run(p.leg_down);
    }
  }
  return rows;
}

/** Where the assembled rows end when they are marched from the other end. */
function reversed(
  rows: readonly Row[],
  end: { end: { at: V; flow: V } },
  made: ReturnType<typeof march>,
): V | undefined {
  const bends = rows.flatMap((row, i) => ('clr' in row ? [{ row, i }] : []));
  const last = bends.at(-1);
  if (!last || last.row.angle < 0.5) return undefined;
  const on = made.stations.filter(({ row }) => row === last.i);
  const [into, out] = [on[0]?.flow, on.at(-1)?.flow];
  if (!into || !out) return undefined;
  const a = last.row.angle * rad;
  // Turning direction where the last bend ends: d = c f - s n, so n = (c f - d) / s.
  const toward = plus(plus([0, 0, 0], out, Math.cos(a)), into, -1);
  const unitToward: V = [toward[0] / size(toward), toward[1] / size(toward), toward[2] / size(toward)];
  let next = 0;
  const back: Row[] = [...rows].reverse().map((row): Row => {
    if (!('clr' in row)) return row;
    const clock = next;
    next = row.clock;
    return { ...row, clock };
  });
  const f = end.end.flow;
  return march(end.end.at, [-f[0], -f[1], -f[2]], unitToward, back, 5).end.at;
}
