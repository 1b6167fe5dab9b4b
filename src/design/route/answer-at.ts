import type { Answer } from './answer.js';
import { leastAssignment } from './assign.js';
import type { Candidate } from './candidate.js';
import { chooseFewestWelds } from './choose.js';
import type { Crew } from './crew.js';
import { keptCandidate } from './kept-candidate.js';
import { blameOf, provenSpare, sparesOf, weldsOf } from './measure.js';
import type { Pool } from './pool.js';
import type { RouteProblem } from './problem.js';
import { repair } from './repair.js';
import type { Stage } from './stages.js';
import type { WantedBy } from './wanted.js';

const NODES = 8000;
/** Overlap (mm) let pass where a repair is to cure it, and the work spent on that. */
const OVERLAP = -8;
const REPAIR_NODES = 6000;
/** Sets looked at for repair, and how many of them are tried. */
const MOST_SETS = 40;
const MOST_REPAIRS = 8;
const REPAIR_TRIES = 800;
/** A repair is given up where so many tries gain less than so much (mm). */
const PATIENCE = { tries: 120, gain: 0.25 };
const AIM = 0.3;
const TOUCH_UP_TRIES = 600;

export interface AnswerRules {
  readonly stage: Stage;
  /** Routes within this (mm) of the length are brought to it. */
  readonly near: number;
  readonly best: Answer | undefined;
  readonly seed: number;
  readonly mayRepair: boolean;
  /** Welds of a primary that nothing can better. */
  readonly fewest: number;
  readonly wantedFor: (start: number, slot: number) => WantedBy;
  readonly crew: Crew;
}

/** The best set of primaries of one length that the pool gives, where it betters the best known. */
export function answerAt(
  problem: RouteProblem,
  pool: Pool,
  length: number,
  { stage, near, best, seed, mayRepair, fewest, wantedFor, crew }: AnswerRules,
): { readonly answer: Answer | undefined; readonly nodes: number } {
  const under = best === undefined ? Infinity : length < best.length - 0.01 ? best.welds + 1 : best.welds;
  const orders = pool.flatMap((row, start) =>
    row.flatMap((ways, slot) =>
      ways.length === 0 || problem.kept[start] !== undefined
        ? []
        : [
            {
              start,
              slot,
              length,
              pool: ways,
              window: near,
              keep: stage.keep,
              fewest,
              wanted: wantedFor(start, slot),
            },
          ],
    ),
  );
  const made = crew.run('library', orders);
  const library = pool.map((row, i) =>
    row.map((_, j): readonly Candidate[] => {
      const kept = keptCandidate(problem, i);
      if (kept) return kept.slot === j ? [kept] : [];
      return made[orders.findIndex(({ start, slot }) => start === i && slot === j)] ?? [];
    }),
  );
  const least = library.map((row) => row.map((routes) => Math.min(Infinity, ...routes.map((r) => r.welds))));
  if (!(leastAssignment(least, problem.orders) < under)) return { answer: undefined, nodes: 0 };
  const offered = library.map((row) => row.flat().sort((a, b) => a.welds - b.welds || b.spare - a.spare));
  const chosen = chooseFewestWelds(problem, offered, { under, spare: 0, nodes: NODES });
  let routes = chosen.sets[0];
  let { nodes } = chosen;
  if (routes === undefined && mayRepair) {
    const touching = chooseFewestWelds(problem, offered, {
      under,
      spare: OVERLAP,
      nodes: REPAIR_NODES,
      many: MOST_SETS,
    });
    nodes += touching.nodes;
    routes = firstCured(problem, touching.sets, length, seed);
  }
  if (routes === undefined) return { answer: undefined, nodes };
  let spare = provenSpare(problem, routes);
  if (spare < 0) {
    routes = repair(problem, routes, { length, spare: AIM, tries: TOUCH_UP_TRIES, seed }).routes;
    spare = provenSpare(problem, routes);
  }
  if (spare < 0) return { answer: undefined, nodes };
  return { answer: { routes, length, welds: weldsOf(routes), spare }, nodes };
}

/** The first of the sets that a repair frees, the least overlapping tried first. */
function firstCured(
  problem: RouteProblem,
  sets: readonly (readonly Candidate[])[],
  length: number,
  seed: number,
): readonly Candidate[] | undefined {
  const ranked = sets
    .map((set) => ({ set, blame: blameOf(sparesOf(problem, set, 2, 0)) }))
    .sort((a, b) => a.blame - b.blame);
  for (const { set } of ranked.slice(0, MOST_REPAIRS)) {
    const cured = repair(problem, set, { length, spare: AIM, tries: REPAIR_TRIES, seed, patience: PATIENCE });
    if (cured.spare > 0 && provenSpare(problem, cured.routes) >= 0) return cured.routes;
  }
  return undefined;
}
