import type { Problem } from '../../base/problems.js';
import type { Job } from '../../job/job.js';
import type { FieldOf } from '../route/obstacles.js';
import type { CentreLines } from '../routes-by-hand.js';
import { growthOf } from './growth.js';
import { headerMovers, neighbourMover, type MovingThing, type Mover } from './movers.js';
import { orderOff, passages, type OrderedStep, type Passages } from './order.js';
import { serviceProblems } from './problems.js';
import { leastShift } from './shift.js';
import type { NeighbourOut, Service, ServiceStep } from './steps.js';
import { keepOutThings, type Thing } from './things.js';

/**
 * How the header goes on and comes off, step by step, as motions swept against everything in place, and how it
 * grows when hot. Undefined where not every primary has a route. What hangs on the collector's outlet, and which
 * way the header leaves the engine bay once it is off its studs, are not looked at.
 * @param fieldOf gives the distance to keep-outs that are files; those without are left out, and told
 */
export function serviceOf(
  job: Job,
  lines: CentreLines,
  fieldOf: FieldOf = () => undefined,
): { readonly value: Service | undefined; readonly problems: readonly Problem[] } {
  if (job.tube === undefined || job.ports.length === 0 || job.ports.some(({ id }) => !lines.has(id)))
    return { value: undefined, problems: [] };
  const { things, unseen } = keepOutThings(job, fieldOf);
  const still = things.map((thing): Thing => {
    const keepOut = job.keepOuts[thing.keepOut];
    return (keepOut && neighbourMover(thing, keepOut, job.service)) ?? thing;
  });
  const neighbours = still.filter((thing): thing is MovingThing => 'motions' in thing);
  const measure = passages();
  const { layout, ...off } = comingOff(job, lines, still, neighbours, measure);
  const value: Service = {
    ...off,
    neighbours: neighboursOut(layout, neighbours, measure),
    growth: growthOf(job, lines),
  };
  return { value, problems: serviceProblems(job, value, unseen) };
}

interface Layout {
  readonly movers: readonly Mover[];
  readonly things: readonly Thing[];
  readonly wanted: readonly string[];
}

type Coming = Pick<Service, 'inOne' | 'comesOff' | 'steps' | 'joined' | 'collectorStays'> & {
  readonly layout: Layout;
};

/** In parts where the joints slip; in one where they are welded, or where the collector cannot be drawn off. */
function comingOff(
  job: Job,
  lines: CentreLines,
  still: readonly Thing[],
  neighbours: readonly MovingThing[],
  measure: Passages,
): Coming {
  const attempt = (inOne: boolean): Coming => {
    const { collector, nuts, parts, joined } = headerMovers(job, lines, inOne);
    const own = [...(collector === undefined ? [] : [collector]), ...parts];
    const movers = [...neighbours, ...own, ...nuts];
    const things: readonly Thing[] = [...still, ...own];
    // Without studs it is not known what the header is drawn off, nor how far.
    const header = job.studs === undefined ? [] : parts;
    const collectors = own.filter(({ kind }) => kind === 'collector');
    const wanted = [...collectors, ...nuts, ...header].map(({ id }) => id);
    const ordered = orderOff(movers, things, wanted, measure);
    const steps = ordered.map((step) => told(step, things));
    const comesOff = joined.length === 0 && steps.every(({ blockers }) => blockers.length === 0);
    const whole = inOne || (collector === undefined && job.collector !== undefined);
    return {
      inOne: whole,
      comesOff,
      steps,
      joined,
      collectorStays: undefined,
      layout: { movers, things, wanted },
    };
  };
  const apart = attempt(false);
  const stays = apart.steps.find(({ kind, blockers }) => kind === 'collector' && blockers.length > 0);
  if (stays === undefined) return apart;
  const together = attempt(true);
  return together.comesOff ? { ...together, collectorStays: stays } : apart;
}

/** What each neighbour that comes out waits for, taking off no more than it needs. */
function neighboursOut(
  { movers, things }: Layout,
  neighbours: readonly MovingThing[],
  measure: Passages,
): readonly NeighbourOut[] {
  return neighbours.flatMap((neighbour): NeighbourOut[] => {
    const steps = orderOff(movers, things, [neighbour.id], measure);
    const last = steps.at(-1);
    const [motion] = neighbour.motions;
    if (last === undefined || motion === undefined) return [];
    const after = steps.slice(0, -1).filter(({ mover }) => mover.kind !== 'nut');
    return [
      {
        name: neighbour.name,
        way: motion.way,
        distance: motion.distance,
        after: after.map(({ mover }) => mover.name),
        step: told(last, things),
      },
    ];
  });
}

function told(
  { mover, gap, nearest, overlaps, blockers }: OrderedStep,
  things: readonly Thing[],
): ServiceStep {
  const main = mover.motions.reduce((a, b) => (b.distance > a.distance ? b : a));
  return {
    kind: mover.kind,
    name: mover.name,
    stud: mover.stud,
    way: main.way,
    distance: main.distance,
    free: gap,
    nearest,
    overlaps,
    path: mover.path,
    blockers: blockers.map((blocker) => {
      const thing = things.find(({ id }) => id === blocker.thing);
      return { ...blocker, path: thing?.path, shift: thing && leastShift(mover, thing) };
    }),
  };
}
