import { radians, roundTo } from '../../base/numbers.js';
import { add, distance3, scale, type Vector } from '../../base/vectors.js';
import type { KeepOut, KeepOutShape } from '../../job/job.js';
import type { RoutableJob } from './set-problem.js';

/** A change to a job that might let routes through: data only, for the words see `build`. */
export type Change =
  | {
      /** One face of a box moved in. */
      readonly kind: 'face';
      readonly name: string;
      readonly path: string;
      readonly axis: 0 | 1 | 2;
      readonly side: 'from' | 'to';
    }
  /** A cylinder or capsule made thinner; a plane moved back; a clearance made less. */
  | { readonly kind: 'diameter' | 'plane' | 'clear'; readonly name: string; readonly path: string }
  | { readonly kind: 'collector moved'; readonly axis: 0 | 1 | 2; readonly way: 1 | -1 }
  | { readonly kind: 'collector turned'; readonly way: 1 | -1 }
  | { readonly kind: 'longer' | 'shorter' | 'stub' | 'last straight' };

/** A change with how far it may go; mm, rad where the collector is turned. */
export interface PossibleChange {
  readonly change: Change;
  /** What its size is judged against: the body's own size, the length, the way to the collector. */
  readonly scale: number;
  readonly most: number;
  /** Sizes are told apart by this. */
  readonly step: number;
  /** Whether more of it can only ease: then a proof that one size does not do holds for all smaller ones. */
  readonly onlyEases: boolean;
}

/** A job with a change made, and the value that the user would write in place of the one there was. */
export interface Changed {
  readonly job: RoutableJob;
  readonly was: number | Vector;
  readonly now: number | Vector;
}

/** Of a body, so much of its size may be taken away; of a clearance no more than half: tubes are hot. */
const MOST_OF_BODY = 0.9;
const MOST_OF_CLEARANCE = 0.5;
/** Bounds (mm) of what is still the same job: a face, the collector. */
const MOST_FACE = 200;
const MOST_COLLECTOR = 160;
/** No straight at the flange or at a welded mouth is offered shorter than this (mm): room for the bead. */
const LEAST_STRAIGHT = 10;

/**
 * The changes worth trying: the length window, what the named keep-outs are and ask, where the collector
 * stands, and the straights at the ends. A port's own head is never shrunk, and no clearance lowered where the
 * job says what it is kept for (a brake line, steering), or that it moves against the engine.
 * @param blockers names of keep-outs that stand in the way
 */
export function possibleChanges(job: RoutableJob, blockers: readonly string[]): readonly PossibleChange[] {
  const { length, primaries, collector } = job;
  const blocking = blockers.flatMap((name) => job.keepOuts.filter((one) => one.name === name));
  const eases = (change: Change, against: number, most: number, step: number): readonly PossibleChange[] =>
    most >= step ? [{ change, scale: against, most, step, onlyEases: true }] : [];
  // Primaries given by hand set the length of all, whatever the window says.
  const free = Object.keys(primaries.byHand).length === 0;
  const way = job.ports.reduce((sum, { at }) => sum + distance3(at, collector.at), 0) / job.ports.length;
  const last = collector.joint === 'slip' ? collector.slip.depth : LEAST_STRAIGHT;
  return [
    ...(free ? eases({ kind: 'longer' }, length.to, length.to / 2, 5) : []),
    ...blocking.flatMap((one) => [...clearanceOf(one), ...bodyOf(one)]),
    ...([1, 0, 2] as const).flatMap((axis) =>
      ([-1, 1] as const).map((to): PossibleChange => ({
        change: { kind: 'collector moved', axis, way: to },
        scale: way,
        most: MOST_COLLECTOR,
        step: 5,
        onlyEases: false,
      })),
    ),
    ...(collector.clocking === undefined
      ? []
      : ([1, -1] as const).map((to): PossibleChange => ({
          change: { kind: 'collector turned', way: to },
          scale: Math.PI,
          most: Math.PI / job.ports.length,
          step: radians(5),
          onlyEases: false,
        }))),
    ...eases({ kind: 'stub' }, primaries.stub, primaries.stub - LEAST_STRAIGHT, 1),
    ...eases({ kind: 'last straight' }, primaries.lastStraight, primaries.lastStraight - last, 1),
    ...(free ? eases({ kind: 'shorter' }, length.from, length.from / 3, 5) : []),
  ];

  function clearanceOf({ name, path, clear, what, fixedTo }: KeepOut): readonly PossibleChange[] {
    if (what !== undefined || fixedTo === 'body') return [];
    return eases({ kind: 'clear', name, path }, clear, clear * MOST_OF_CLEARANCE, 1);
  }

  function bodyOf({ name, path, shape, headOf }: KeepOut): readonly PossibleChange[] {
    if (headOf.length > 0) return [];
    if (shape.kind === 'plane') return eases({ kind: 'plane', name, path }, way, MOST_FACE, 2);
    if (shape.kind === 'cylinder' || shape.kind === 'capsule')
      return eases({ kind: 'diameter', name, path }, shape.diameter, shape.diameter * MOST_OF_BODY, 1);
    if (shape.kind !== 'box') return [];
    return ([0, 1, 2] as const).flatMap((axis) => {
      const extent = shape.to[axis] - shape.from[axis];
      const most = Math.min(extent * MOST_OF_BODY, MOST_FACE);
      return (['from', 'to'] as const).flatMap((side) =>
        eases({ kind: 'face', name, path, axis, side }, extent, most, 1),
      );
    });
  }
}

/** To a tenth of a millimetre, as one would write it. */
const written = (value: number): number => roundTo(value, 1);
const moved = (at: Vector, axis: number, by: number): Vector =>
  at.map((x, i) => (i === axis ? written(x + by) : x)) as unknown as Vector;

/** The job with a change of this size made to it. */
export function withChange(job: RoutableJob, change: Change, size: number): Changed {
  const { length, primaries, collector } = job;
  switch (change.kind) {
    case 'longer': {
      const now = written(length.to + size);
      return { job: { ...job, length: { ...length, to: now } }, was: length.to, now };
    }
    case 'shorter': {
      const now = written(length.from - size);
      return { job: { ...job, length: { ...length, from: now } }, was: length.from, now };
    }
    case 'stub': {
      const now = written(primaries.stub - size);
      return { job: { ...job, primaries: { ...primaries, stub: now } }, was: primaries.stub, now };
    }
    case 'last straight': {
      const { lastStraight: was } = primaries;
      const now = written(was - size);
      return { job: { ...job, primaries: { ...primaries, lastStraight: now } }, was, now };
    }
    case 'collector moved': {
      const now = moved(collector.at, change.axis, change.way * size);
      return { job: { ...job, collector: { ...collector, at: now } }, was: collector.at, now };
    }
    case 'collector turned': {
      const was = collector.clocking ?? 0;
      const now = was + change.way * size;
      return { job: { ...job, collector: { ...collector, clocking: now } }, was, now };
    }
    default: {
      let values: Omit<Changed, 'job'> = { was: 0, now: 0 };
      const keepOuts = job.keepOuts.map((one): KeepOut => {
        if (one.path !== change.path) return one;
        const [made, was, now] = keepOutWith(one, change, size);
        values = { was, now };
        return made;
      });
      return { job: { ...job, keepOuts }, ...values };
    }
  }
}

type OfKeepOut = Extract<Change, { readonly path: string }>;

function keepOutWith(
  one: KeepOut,
  change: OfKeepOut,
  size: number,
): readonly [made: KeepOut, was: number | Vector, now: number | Vector] {
  const { shape, clear } = one;
  const shaped = (made: KeepOutShape): KeepOut => ({ ...one, shape: made });
  if (change.kind === 'face' && shape.kind === 'box') {
    const was = shape[change.side][change.axis];
    const end = moved(shape[change.side], change.axis, change.side === 'from' ? size : -size);
    return [shaped({ ...shape, [change.side]: end }), was, end[change.axis]];
  }
  if (change.kind === 'diameter' && (shape.kind === 'cylinder' || shape.kind === 'capsule')) {
    const now = written(shape.diameter - size);
    return [shaped({ ...shape, diameter: now }), shape.diameter, now];
  }
  if (change.kind === 'plane' && shape.kind === 'plane') {
    const at = add(shape.at, scale(shape.normal, -size)).map(written) as unknown as Vector;
    return [shaped({ ...shape, at }), shape.at, at];
  }
  if (change.kind === 'clear') {
    const now = written(clear - size);
    return [{ ...one, clear: now }, clear, now];
  }
  throw new RangeError(`${one.name} cannot be changed by ${change.kind}`);
}
