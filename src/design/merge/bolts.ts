import { cosSin } from '../../base/numbers.js';
import { times, type Point } from '../../base/points.js';
import { circleLoop, distanceTo, isInside } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import type { MergePlateSpec } from '../../job/job.js';
import { leastCutHole } from '../../job/tables/cutting.js';
import { threadOf } from '../../job/tables/threads.js';
import type { RoundHole } from '../parts.js';
import { reachOutside, type TubeHole } from './tubes.js';

/** The bolts round a merge plate. */
export interface BoltRing {
  readonly holes: readonly RoundHole[];
  /** Radius of the circle they stand on, mm. */
  readonly radius: number;
  /** The least radius at which holes have their webs and tools clear the tubes, mm. */
  readonly least: number;
  /** Room that a socket needs round a bolt: radius, mm; 0 where the thread is not known. */
  readonly tool: number;
}

/** Cut on the table, or marked for the drill where the process cannot make so small a hole well. */
export const madeHow = (diameter: number, { cutBy, thickness }: MergePlateSpec): RoundHole['made'] =>
  diameter < leastCutHole(cutBy, thickness) ? 'drilled' : 'cut';

/** Where bolt k of n stands round the axis: the first halfway between S1 and S2, the rest evenly on. */
const boltTurn = (k: number, count: number, tubes: readonly TubeHole[]): number =>
  (tubes[0]?.clock ?? 0) + Math.PI / tubes.length + (2 * Math.PI * k) / count;

/**
 * The bolt ring, its first bolt halfway between S1 and S2. Where the job gives no circle, the smallest on
 * which every hole has the least web to the tubes' holes and every socket clears the tubes, in half
 * millimetres of radius: with as many bolts as tubes they stand in the notches between them.
 */
export function boltRing(plate: MergePlateSpec, tubes: readonly TubeHole[]): BoltRing | undefined {
  const ring = plate.boltRing;
  if (ring === undefined) return undefined;
  const tool = (ring.thread === undefined ? 0 : (threadOf(ring.thread)?.socket ?? 0)) / 2;
  const need = Math.max(ring.hole / 2 + plate.leastWeb, tool);
  const turns = Array.from({ length: ring.count }, (_, k) => boltTurn(k, ring.count, tubes));
  const clear = (radius: number): boolean =>
    turns.every((turn) => {
      const at = times(cosSin(turn), radius);
      return tubes.every(
        ({ opening: { loop } }) => !isInside(loop, at) && distanceTo(loop, at).distance >= need,
      );
    });
  // From outside inward, as far as all stay clear: further in they could only come clear on the wrong side.
  let least = Math.ceil(2 * (reachOutside(tubes) + need)) / 2;
  while (least > 0.5 && clear(least - 0.5)) least -= 0.5;
  const radius = ring.circle === undefined ? least : ring.circle / 2;
  const made = madeHow(ring.hole, plate);
  const holes = turns.map((turn, k): RoundHole => {
    const at: Point = times(cosSin(turn), radius);
    return { name: `bolt ${k + 1}`, at, diameter: ring.hole, made };
  });
  return { holes, radius, least, tool };
}

/** The edge of a round hole. */
export const edgeOf = ({ at, diameter }: RoundHole): Loop => circleLoop(at, diameter / 2);
