import { bench, place, type Frame } from '../../base/frames.js';
import { add, distance3, dot3, scale, type Vector } from '../../base/vectors.js';
import { bodyOf, plateBody } from '../../geom/bodies.js';
import { packCentreLine } from '../../geom/packed-line.js';
import type { Shape, TubeSpan } from '../../geom/sweep.js';
import { chordsOf } from '../../geom/chords.js';
import type { CollectorSpec, Job } from '../../job/job.js';
import { collectorSlots } from '../collector-slots.js';
import { designFlanges } from '../flange/flange.js';
import { planPlates, type PlatePlan } from '../flange/plan.js';
import { planMerge } from '../merge/plan.js';
import { collectorBody, keepOutObstacles, sleeves, type FieldOf } from '../route/obstacles.js';
import { FURTHEST_WAIVER, waiverOf } from '../route/waiver.js';
import type { CentreLines } from '../routes-by-hand.js';

/** One shape of something that is moved, or in place. */
export interface Piece {
  /** As it is spoken of: P2, the flange, collector, starter. */
  readonly name: string;
  readonly role: 'tube' | 'plate' | 'collector' | 'keep-out' | 'tool';
  readonly shape: Shape;
  /** Of a tube: whose it is, and the stations where its axis clears its own head and its last straight begins. */
  readonly tube?: { readonly primary: string; readonly clearsHead: number; readonly lastStraight: number };
  /** Of a head: the primaries that begin on it. */
  readonly headOf: readonly string[];
  /** Of a sleeve: the primary that stands in it. */
  readonly sleeveOf?: string;
}

/** What is moved as one, or stays as one. */
export interface Thing {
  readonly id: string;
  readonly name: string;
  /** Where the job gives it. */
  readonly path: string | undefined;
  readonly pieces: readonly Piece[];
}

/** Bodies are balls of up to this radius (mm) when asked of a field: nearer, it is exact; beyond, never above the truth. */
const EXACT_WITHIN = 200;
/** The largest gap between the plate's edge and the points that stand for it, mm: added all round. */
const EDGE = 0.02;
const plain = { headOf: [] } as const;

/** The keep-outs, by their index in the job; those given as files without a field are left out and named. */
export function keepOutThings(
  job: Job,
  fieldOf: FieldOf,
): {
  readonly things: readonly (Thing & { readonly keepOut: number })[];
  readonly unseen: readonly number[];
} {
  const unseen: number[] = [];
  const things = job.keepOuts.flatMap((keepOut, i) => {
    if ('file' in keepOut.shape && fieldOf(keepOut, EXACT_WITHIN) === undefined) {
      unseen.push(i);
      return [];
    }
    const [obstacle] = keepOutObstacles([keepOut], fieldOf, EXACT_WITHIN);
    if (obstacle === undefined) return [];
    const { solid, name, headOf } = obstacle;
    const shape: Shape =
      solid.kind === 'plane'
        ? { kind: 'half space', halfSpace: { normal: solid.normal, offset: dot3(solid.normal, solid.at) } }
        : solid.kind === 'field'
          ? { kind: 'field', distance: (x, y, z) => solid.distance(x, y, z, Infinity) }
          : { kind: 'body', body: bodyOf(solid) };
    const piece: Piece = { name, role: 'keep-out', shape, headOf };
    return [{ id: `keep-out ${i}`, name, path: keepOut.path, pieces: [piece], keepOut: i }];
  });
  return { things, unseen };
}

/** The collector as it is drawn off: its body, its sleeves, and the merge plate where the job has one. */
export function collectorPieces(job: Job, lines: CentreLines): readonly Piece[] {
  const { collector, tube, mergePlate } = job;
  if (collector === undefined || tube === undefined) return [];
  const ring = collectorSlots(collector, tube.od, job.ports.length);
  const body = collectorBody(collector, ring.radius, tube.od);
  const pieces: Piece[] = [body, ...sleeves(collector, ring.slots, tube.od)].flatMap((part) => {
    if (part.solid.kind === 'plane' || part.solid.kind === 'field') return [];
    const end = ring.slots.find(({ id }) => id === part.slot)?.at;
    const shape: Shape = { kind: 'body', body: bodyOf(part.solid) };
    const sleeveOf = end && nearestEnd(lines, end);
    return [{ ...plain, name: 'collector', role: 'collector', shape, ...(sleeveOf && { sleeveOf }) }];
  });
  if (mergePlate !== undefined) {
    const { outline } = planMerge(tube, collector, mergePlate, job.ports.length);
    const at = add(collector.at, scale(collector.flow, -mergePlate.upstream));
    const points = chordsOf(outline, EDGE).map(([x, y]) => place({ ...ring.frame, origin: at }, [x, y, 0]));
    const shape: Shape = {
      kind: 'body',
      body: plateBody(points, collector.flow, mergePlate.thickness, EDGE),
    };
    pieces.push({ ...plain, name: 'merge plate', role: 'collector', shape });
  }
  return pieces;
}

/** The primary whose tube ends nearest to a place. */
function nearestEnd(lines: CentreLines, at: Vector): string | undefined {
  const far = ([, line]: [string, CentreLines extends ReadonlyMap<string, infer L> ? L : never]): number =>
    distance3(line.end.at, at);
  return [...lines].sort((a, b) => far(a) - far(b))[0]?.[0];
}

/** One plate with the tubes welded to it, and the face it is drawn off. */
export interface HeaderPart {
  readonly name: string;
  readonly face: Frame;
  readonly primaries: readonly string[];
  readonly pieces: readonly Piece[];
}

/** The header: plate by plate, each with its tubes. */
export function headerParts(job: Job, lines: CentreLines): readonly HeaderPart[] {
  const plans = job.flange === undefined ? [{ ...wholeRow(job), name: 'header' }] : planPlates(job);
  return plans.map((plan): HeaderPart => {
    const primaries = plan.ports.map(({ port }) => port.id);
    const tubes = primaries.flatMap((id) => tubePiece(job, lines, id));
    return {
      name: plans.length === 1 ? 'header' : primaries.join(' and '),
      face: plan.frame,
      primaries,
      pieces: [...tubes, ...platePiece(job, plan)],
    };
  });
}

/** A job without a flange: all ports as one row. */
const wholeRow = (job: Job): PlatePlan => ({
  name: 'header',
  title: 'Header',
  frame: job.ports[0]?.face ?? bench,
  ports: job.ports.map((port) => ({ port, at: [0, 0], direction: port.direction, turn: 0 })),
  studs: [],
  dowels: [],
});

function tubePiece(job: Job, lines: CentreLines, id: string): readonly Piece[] {
  const line = lines.get(id);
  if (line === undefined || job.tube === undefined) return [];
  const radius = job.tube.od / 2;
  const heads = job.keepOuts.filter(({ headOf, shape }) => headOf.includes(id) && !('file' in shape));
  const asked = heads.map((head) => ({ ...head, clear: job.service.margin }));
  const start = { id, at: line.start.at, direction: line.start.direction };
  const obstacles = keepOutObstacles(asked, () => undefined, radius);
  const clearsHead = waiverOf(start, obstacles, 0, radius, line.length)?.until ?? FURTHEST_WAIVER;
  const lastStraight = line.pieces.at(-1)?.station ?? 0;
  const shape: TubeSpan = { kind: 'tube', line: packCentreLine(line), span: [0, line.length], radius };
  return [{ ...plain, name: id, role: 'tube', shape, tube: { primary: id, clearsHead, lastStraight } }];
}

/** The flange plate as the hull of its outline: a belt round it, which is what it needs when it is moved. */
function platePiece(job: Job, plan: PlatePlan): readonly Piece[] {
  const { flange, tube } = job;
  if (flange === undefined) return [];
  const drawn = designFlanges(job).value?.find(({ plan: of }) => of.name === plan.name)?.part.outline;
  // Where the plate cannot be drawn yet: its studs' bosses and a square round every tube.
  const around = (at: readonly [number, number], r: number): [number, number][] =>
    [0, 1, 2, 3].map((k) => [at[0] + (k & 1 ? r : -r), at[1] + (k & 2 ? r : -r)]);
  const flat = drawn
    ? chordsOf(drawn, EDGE)
    : [
        ...plan.studs.flatMap(({ at }) => around(at, flange.boss)),
        ...plan.ports.flatMap(({ at }) => around(at, (tube?.od ?? 40) / 2 + flange.edge)),
      ];
  const points = flat.map(([x, y]) => place(plan.frame, [x, y, 0]));
  const shape: Shape = { kind: 'body', body: plateBody(points, plan.frame.out, flange.thickness, EDGE) };
  return [{ ...plain, name: 'flange', role: 'plate', shape }];
}

/** How far the collector is drawn along its flow (mm), or undefined where its joints do not slip. */
export const drawOff = (collector: CollectorSpec | undefined, beyond: number): number | undefined =>
  collector?.joint === 'slip' ? collector.slip.depth + beyond : undefined;
