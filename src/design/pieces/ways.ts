import { tolerance } from '../../base/tolerance.js';
import { bendWays, type BendWay } from './bend-ways.js';
import { courseOf, type Course, type PrimaryToCut } from './primary.js';
import type { CuttingRules } from './rules.js';
import { shareStraight, type Reach, type Share } from './share-straight.js';

/** One step along a primary: a straight, how it is shared out, and how the bend behind it is cut. */
export interface Step {
  /** Number of the straight, from 0 at the flange. */
  readonly straight: number;
  /** What the bend before left for this straight, and what this step's bend leaves for the next. */
  readonly from: string;
  readonly to: string;
  readonly share: Share;
  /** Absent for the last straight. */
  readonly bend: BendWay | undefined;
  /** Pieces that this step adds: inserts, and the bend's. */
  readonly pieces: number;
  /** Welds of this step that stand at the end of an arc or in one. */
  readonly arcWelds: number;
}

/** Every way to cut one primary, as steps that join up where `to` and `from` agree. */
export interface Ways {
  readonly primary: PrimaryToCut;
  readonly course: Course;
  /** Steps by straight. */
  readonly steps: readonly (readonly Step[])[];
}

const START = 'flange';
export const END = 'end';
const nameOf = ({ most, least }: Reach): string => `${most} ${least}`;

/** How far a primary can be cut from the flange: the straight that no way gets past, if any. */
export interface Stuck {
  readonly stuckAt: number;
}

/**
 * All steps that can be made from the rack. Dynamic programming: what is behind a bend matters to the rest
 * of the primary only by the leg it leaves, so ways that leave the same leg are one state.
 */
export function waysOf(
  primary: PrimaryToCut,
  rules: CuttingRules,
): { readonly ways: Ways; readonly stuckAt: number | undefined } {
  const course = courseOf(primary, rules);
  const steps: Step[][] = [];
  let states = new Map<string, Reach | undefined>([[START, undefined]]);
  for (const [i, straight] of course.straights.entries()) {
    const bend = course.bends[i];
    const choices = bend ? bendWays(bend, rules, primary.noWeld) : [undefined];
    const here: Step[] = [];
    const next = new Map<string, Reach | undefined>();
    for (const [from, before] of states) {
      const shares = new Map<string, Share | undefined>();
      for (const choice of choices) {
        const behind = choice ? nameOf(choice.up) : END;
        if (!shares.has(behind))
          shares.set(behind, shareStraight(straight, before, choice?.up, rules, primary.noWeld));
        const share = shares.get(behind);
        if (share === undefined) continue;
        const to = choice ? nameOf(choice.down) : END;
        next.set(to, choice?.down);
        const pieces = share.inserts.length + (choice?.pieces.length ?? 0);
        const arcWelds = arcWeldsOf(share, from !== START, choice);
        here.push({ straight: i, from, to, share, bend: choice, pieces, arcWelds });
      }
    }
    steps.push(here);
    if (next.size === 0) return { ways: { primary, course, steps }, stuckAt: i };
    states = next;
  }
  return { ways: { primary, course, steps }, stuckAt: undefined };
}

/** Welds at the end of an arc: where a piece without a leg meets the straight, or another such piece. */
function arcWeldsOf(
  { before, inserts, behind }: Share,
  joinsBefore: boolean,
  bend: BendWay | undefined,
): number {
  const inside = (bend?.pieces.length ?? 1) - 1;
  const none = (leg: number): number => (leg <= tolerance.samePoint ? 1 : 0);
  if (inserts.length === 0) {
    const joint = joinsBefore && bend !== undefined;
    return inside + (joint ? Math.max(none(before), none(behind)) : 0);
  }
  return inside + (joinsBefore ? none(before) : 0) + (bend === undefined ? 0 : none(behind));
}

/** What a step weighs when ways are compared: least first. */
export type Weight = (step: Step) => number;

/** Pieces first, then welds out of arcs, then little insert. */
export const bestForWelding: Weight = ({ pieces, arcWelds, share }) =>
  pieces + 1e-3 * arcWelds + 1e-9 * share.inserts.reduce((sum, insert) => sum + insert, 0);

/** The least weight from the flange to each state, straight by straight. */
function forward(ways: Ways, weight: Weight): Map<string, { least: number; by: Step | undefined }>[] {
  const tables = [new Map([[START, { least: 0, by: undefined as Step | undefined }]])];
  ways.steps.forEach((steps, i) => {
    const here = tables[i];
    const next = new Map<string, { least: number; by: Step | undefined }>();
    for (const step of steps) {
      const least = (here?.get(step.from)?.least ?? Infinity) + weight(step);
      if (least < (next.get(step.to)?.least ?? Infinity)) next.set(step.to, { least, by: step });
    }
    tables.push(next);
  });
  return tables;
}

/** The lightest way from flange to collector, or undefined where there is none. */
export function lightestWay(ways: Ways, weight: Weight): readonly Step[] | undefined {
  const tables = forward(ways, weight);
  const way: Step[] = [];
  let state = END;
  for (let i = ways.course.straights.length; i > 0; i--) {
    const step = tables[i]?.get(state)?.by;
    if (step === undefined) return undefined;
    way.unshift(step);
    state = step.from;
  }
  return way;
}

export const piecesIn = (way: readonly Step[]): number => way.reduce((sum, { pieces }) => sum + pieces, 0);

/** Only the steps that lie on some way of at most `most` pieces. */
export function waysWithin(ways: Ways, most: number): Ways {
  const before = forward(ways, ({ pieces }) => pieces);
  let behind = new Map([[END, 0]]);
  const kept: Step[][] = [];
  for (let i = ways.steps.length - 1; i >= 0; i--) {
    const here = new Map<string, number>();
    const on = (ways.steps[i] ?? []).filter((step) => {
      const rest = behind.get(step.to);
      const start = before[i]?.get(step.from)?.least;
      if (rest === undefined || start === undefined) return false;
      const through = rest + step.pieces;
      here.set(step.from, Math.min(through, here.get(step.from) ?? Infinity));
      return start + through <= most;
    });
    kept.unshift(on);
    behind = here;
  }
  return { ...ways, steps: kept };
}
