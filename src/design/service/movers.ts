import { dot3, scale, type Vector } from '../../base/vectors.js';
import { tolerance } from '../../base/tolerance.js';
import { bodyOf, reachToward } from '../../geom/bodies.js';
import type { Job, KeepOut, Stud } from '../../job/job.js';
import { threadOf } from '../../job/tables/threads.js';
import { wrenchSpaces } from '../route/wrench-space.js';
import type { CentreLines } from '../routes-by-hand.js';
import type { Motion } from './passage.js';
import { collectorPieces, drawOff, headerParts, type Piece, type Thing } from './things.js';

/** Something that comes off: how it is drawn, and what must be off before. */
export interface Mover {
  readonly id: string;
  readonly kind: 'neighbour' | 'collector' | 'nut' | 'header';
  readonly name: string;
  readonly path: string | undefined;
  readonly motions: readonly Motion[];
  readonly after: readonly string[];
  /** Of a nut: the stud's number, from 1. */
  readonly stud?: number;
}

/** A mover that also stands in the way of others while it is in place. */
export type MovingThing = Mover & Thing;

/** The ways a neighbour may come out, in the engine's frame. */
export const waysOut: Readonly<Record<NonNullable<KeepOut['comesOut']>, Vector>> = {
  left: [-1, 0, 0],
  right: [1, 0, 0],
  up: [0, 1, 0],
  down: [0, -1, 0],
  out: [0, 0, 1],
};

/** A neighbour drawn out by its own size along that way, and a little more. */
export function neighbourMover(
  thing: Thing,
  { comesOut }: KeepOut,
  { margin, beyond }: Job['service'],
): MovingThing | undefined {
  const [piece] = thing.pieces;
  if (comesOut === undefined || piece?.shape.kind !== 'body') return undefined;
  const way = waysOut[comesOut];
  const { body } = piece.shape;
  const size = reachToward(body, way) + reachToward(body, scale(way, -1));
  const motions = [{ pieces: thing.pieces, way, distance: size + beyond, margin }];
  return { ...thing, kind: 'neighbour', motions, after: [] };
}

/** The collector, its nuts and the header's parts; or all of the header in one with its collector. */
export interface HeaderMovers {
  readonly collector: MovingThing | undefined;
  readonly nuts: readonly Mover[];
  readonly parts: readonly MovingThing[];
  /** Faces that one stiff header would have to be drawn off two ways at once: the primaries on them. */
  readonly joined: readonly (readonly string[])[];
}

/** @param inOne whether the header is taken off with its collector on it */
export function headerMovers(job: Job, lines: CentreLines, inOne: boolean): HeaderMovers {
  const { margin, beyond, studsStand } = job.service;
  const parts = headerParts(job, lines);
  const distance = drawOff(job.collector, beyond);
  const pieces = collectorPieces(job, lines);
  const slips = distance !== undefined && !inOne;
  const collector: MovingThing | undefined =
    job.collector === undefined || !slips
      ? undefined
      : {
          id: 'collector',
          name: 'collector',
          path: 'collector',
          pieces,
          kind: 'collector',
          motions: [{ pieces, way: job.collector.flow, distance, margin }],
          after: [],
        };
  const nuts = nutMovers(job);
  const nutsOf = (primaries: readonly string[]): string[] =>
    nuts.filter(({ of }) => of === undefined || primaries.includes(of)).map(({ id }) => id);
  const one = (name: string, face: Vector, of: readonly string[], own: readonly Piece[]): MovingThing => ({
    id: name,
    name,
    path: undefined,
    pieces: own,
    kind: 'header',
    motions: [{ pieces: own, way: face, distance: studsStand + beyond, margin }],
    after: [...(collector === undefined ? [] : [collector.id]), ...nutsOf(of)],
  });
  const separate = collector !== undefined || job.collector === undefined;
  const [first] = parts;
  if (separate || first === undefined) {
    const apart = parts.map(({ name, face, primaries, pieces: own }) => one(name, face.out, primaries, own));
    return { collector, nuts, parts: apart, joined: [] };
  }
  const all = [...parts.flatMap((part) => part.pieces), ...pieces];
  const alike = parts.every(({ face }) => dot3(face.out, first.face.out) > 1 - tolerance.samePoint);
  const ids = parts.flatMap(({ primaries }) => primaries);
  return {
    collector,
    nuts,
    parts: [one('header', first.face.out, ids, all)],
    joined: alike ? [] : parts.map(({ primaries }) => primaries),
  };
}

/** Half the angle between a nut's corners: across corners = across flats / cos 30. */
const CORNERS = Math.cos(Math.PI / 6);
/** Across the flats and height of a nut, in hole diameters, where no thread is named. Common practice. */
const FLATS_BY_HOLE = 1.5;
const HEIGHT_BY_HOLE = 0.8;

/**
 * The nuts, stud by stud: room for the tool where it stands, and for the nut until it is off its stud. The
 * tool's room holds its own allowance, so nothing is added to it.
 */
function nutMovers(job: Job): readonly (Mover & { readonly of: string | undefined })[] {
  const { studs, flange, service } = job;
  if (studs === undefined) return [];
  const thread = studs.thread === undefined ? undefined : threadOf(studs.thread);
  const across = (thread?.acrossFlats ?? studs.hole * FLATS_BY_HOLE) / CORNERS;
  const high = thread?.nutHeight ?? studs.hole * HEIGHT_BY_HOLE;
  const rooms = wrenchSpaces(job);
  return studs.all.flatMap((stud, i) => {
    const room = rooms[i]?.solid;
    if (room?.kind !== 'cylinder') return [];
    const way = stud.face.out;
    const tool: Piece = {
      name: job.wrench.tool,
      role: 'tool',
      shape: { kind: 'body', body: bodyOf(room) },
      headOf: [],
    };
    const nut: Piece = {
      ...tool,
      name: 'nut',
      shape: { kind: 'body', body: nutBody(stud, room.from, across, high) },
    };
    const drawn = Math.max(0, service.studsStand - (flange?.thickness ?? 0));
    return [
      {
        id: `nut ${i + 1}`,
        kind: 'nut' as const,
        name: `nut of stud ${i + 1}`,
        path: stud.path,
        motions: [
          { pieces: [tool], way, distance: 0, margin: 0 },
          { pieces: [nut], way, distance: drawn, margin: service.margin },
        ],
        after: [],
        stud: i + 1,
        of: stud.port,
      },
    ];
  });
}

const nutBody = (stud: Stud, from: Stud['at'], across: number, high: number): ReturnType<typeof bodyOf> => {
  const { out } = stud.face;
  const to: Stud['at'] = [from[0] + high * out[0], from[1] + high * out[1], from[2] + high * out[2]];
  return bodyOf({ kind: 'cylinder', from, to, diameter: across });
};
