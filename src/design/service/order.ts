import { passageOf, FAR, type Passage } from './passage.js';
import type { Mover } from './movers.js';
import type { Thing } from './things.js';

/** What stands in the way of a motion. */
export interface Blocker {
  /** Its id among the things, and its name: P2, starter. */
  readonly thing: string;
  readonly name: string;
  /** How far the motion gets, and how much is missing, mm. A tool that does not move lacks what stands in its room. */
  readonly reach: number;
  readonly missing: number;
  /** Why it is not out of the way, though it could come off: it is in turn blocked, or waits for this one. */
  readonly stays?: 'blocked' | 'waits';
}

/** One step of taking off: it passes, or it is blocked. */
export interface OrderedStep {
  readonly mover: Mover;
  /** Least gap to what is in place at that step (mm, capped), and to what. */
  readonly gap: number;
  readonly nearest: string | undefined;
  /** Things that overlap it as drawn, and were not judged. */
  readonly overlaps: readonly string[];
  readonly blockers: readonly Blocker[];
}

/** Measures each motion against each thing once. */
export type Passages = (mover: Mover, thing: Thing) => readonly Passage[];

/** Remembers what it has measured. */
export function passages(): Passages {
  const known = new Map<Thing, Map<Mover, readonly Passage[]>>();
  return (mover, thing) => {
    const of = known.get(thing) ?? new Map<Mover, readonly Passage[]>();
    known.set(thing, of);
    const found = of.get(mover) ?? mover.motions.map((motion) => passageOf(motion, thing));
    of.set(mover, found);
    return found;
  };
}

/** How far a mover is stopped by a thing; undefined where it passes. */
export function stopOf(
  mover: Mover,
  found: readonly Passage[],
): Pick<Blocker, 'name' | 'reach' | 'missing'> | undefined {
  let worst: Pick<Blocker, 'name' | 'reach' | 'missing'> | undefined;
  found.forEach(({ reach, nearest, gap }, i) => {
    const motion = mover.motions[i];
    if (reach === undefined || motion === undefined) return;
    const missing = motion.distance > 0 ? motion.distance - reach : motion.margin - gap;
    if (worst === undefined || missing > worst.missing) worst = { name: nearest, reach, missing };
  });
  return worst;
}

/**
 * The order in which things come off, so that each passes all that is still in place, taking off no more than
 * is needed for what is wanted. Taking something away never blocks anything, so whatever stands in a way must
 * come off first, whichever order is tried: the order follows from who blocks whom, and there is none only
 * where something fixed stands in the way, or two wait for each other.
 * @param movers all that can come off
 * @param things all that is in place, movers among them
 * @param wanted ids of what has to come off, in the order preferred
 */
export function orderOff(
  movers: readonly Mover[],
  things: readonly Thing[],
  wanted: readonly string[],
  measure: Passages,
): readonly OrderedStep[] {
  const byId = new Map(movers.map((mover) => [mover.id, mover]));
  const state = new Map<string, 'waits' | 'off' | 'blocked'>();
  const steps: OrderedStep[] = [];
  const visit = (mover: Mover): boolean => {
    state.set(mover.id, 'waits');
    let free = true;
    /** Whether something is out of the way, or can be got out. */
    const clear = (id: string): 'waits' | 'blocked' | undefined => {
      const other = byId.get(id);
      if (other === undefined) return 'blocked';
      const stands = state.get(id);
      if (stands === 'off') return undefined;
      if (stands !== undefined) return stands;
      return visit(other) ? undefined : 'blocked';
    };
    for (const id of mover.after) if (clear(id) !== undefined) free = false;
    const blockers: Blocker[] = [];
    for (const thing of things) {
      if (thing.id === mover.id) continue;
      const stop = stopOf(mover, measure(mover, thing));
      if (stop === undefined) continue;
      const stays = clear(thing.id);
      if (stays === undefined) continue;
      blockers.push({ thing: thing.id, ...stop, ...(byId.has(thing.id) ? { stays } : {}) });
    }
    free &&= blockers.length === 0;
    state.set(mover.id, free ? 'off' : 'blocked');
    const left = things.filter(({ id }) => id !== mover.id && state.get(id) !== 'off');
    steps.push({ mover, ...nearestOf(mover, left, measure), blockers });
    return free;
  };
  for (const id of wanted) {
    const mover = byId.get(id);
    if (mover !== undefined && !state.has(id)) visit(mover);
  }
  return steps;
}

/** What a mover comes nearest to of the things left, and what it overlaps as drawn. */
function nearestOf(
  mover: Mover,
  left: readonly Thing[],
  measure: Passages,
): Pick<OrderedStep, 'gap' | 'nearest' | 'overlaps'> {
  let [gap, nearest]: [number, string | undefined] = [FAR, undefined];
  const overlaps = new Set<string>();
  for (const thing of left)
    for (const passage of measure(mover, thing)) {
      if (passage.overlaps) overlaps.add(thing.name);
      if (passage.gap < gap) [gap, nearest] = [passage.gap, passage.nearest];
    }
  return { gap, nearest, overlaps: [...overlaps] };
}
