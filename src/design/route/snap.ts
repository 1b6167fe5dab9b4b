import { degrees } from '../../base/numbers.js';
import { mixSeed } from '../../base/random.js';
import { centreLineOf, missOf, type CentreLineRow } from '../../geom/centre-line.js';
import { intersectionPointsOf } from '../../geom/intersection-points.js';
import { leastSpareBetween } from '../../geom/line-to-line.js';
import { packCentreLine } from '../../geom/packed-line.js';
import type { Answer } from './answer.js';
import type { Candidate } from './candidate.js';
import { chooseRounded, type Choosable } from './choose-rounded.js';
import { ENOUGH_SPARE } from './library.js';
import { PROVING, provenSpare, weldsOf } from './measure.js';
import { builtLengthOf, type RouteProblem, type RouteSlot, type RouteStart } from './problem.js';
import { roundedRows, weightOf } from './round-rows.js';
import { keepsLimits, spareToItself, spareToObstacles, weldsOfLine } from './rules.js';

/**
 * With no more spread than this (mm) all stays exact: half a degree of a bend is 0.4 to 0.7 mm of tube at the usual
 * radii, so there is nothing to choose from.
 */
const LEAST_SPREAD = 0.5;

/** Ways of rounding a primary that are measured, and how many of them the choice is made from. */
const MEASURED = 400;
const OFFERED = 24;
/** What a mm of least clearance lost weighs against misfit, of which the most there may be weighs 2. */
const PER_SPARE = 1;
/** What a mm off the exact length weighs: little, as the spread is there to be spent. */
const PER_LENGTH = 0.2;
/** A primary stays exact only where nothing rounded will do. */
const UNROUNDED = 1000;
/** March against primaries that may yet move: coarse, and how much overlap (mm) is told apart. */
const ROUGH = { floor: 0.4, stop: -4 };

/** What rounding came to. */
export interface Rounding {
  /** Primaries that were rounded, and how far each misses its slot: mm, and degrees as in the record. */
  readonly snapped: readonly {
    readonly primary: string;
    readonly misfit: { readonly distance: number; readonly angle: number };
  }[];
  /** Those that stay exact, as nothing rounded meets the slot clear of everything; those by hand not counted. */
  readonly exact: readonly string[];
  /** The longest primary less the shortest, mm. */
  readonly spread: number;
  /** Proven least spare of all, mm over what is asked. */
  readonly spare: number;
}

/**
 * Spends the spread that the job allows on round numbers: primaries in whole half degrees and half millimetres,
 * each within what a joint takes up of its slot, within the spread of the exact length and of each other, with no
 * weld more, and proved as clear as asked along the rounded centre lines. What is given by hand is left alone, and
 * a primary that cannot be rounded so stays exact: it then costs the bench one awkward primary, not all of them.
 * @returns undefined where the spread is too small to be spent
 */
export function snap(
  problem: RouteProblem,
  answer: Answer,
  seed: number,
): { readonly answer: Answer; readonly rounding: Rounding } | undefined {
  const { spread } = problem.limits;
  if (!(spread > LEAST_SPREAD)) return undefined;
  // A window wider than the spread is kept to; a target, or a window as narrow, is met within the spread.
  const { from, to } = problem.limits.window;
  const wide = to - from >= spread;
  const lengths = {
    from: wide ? Math.max(from, answer.length - spread) : answer.length - spread,
    aim: answer.length,
    to: wide ? Math.min(to, answer.length + spread) : answer.length + spread,
  };
  const enough = Math.min(answer.spare, ENOUGH_SPARE);
  const offered = answer.routes.map((route, i): readonly Choosable[] => {
    const own = { route, cost: UNROUNDED, spare: enough };
    if (problem.kept[route.start] !== undefined) return [{ ...own, cost: 0 }];
    const before = builtLengthOf(problem, route.start);
    const rest = { from: lengths.from - before, aim: lengths.aim - before, to: lengths.to - before };
    const ways = roundedRows(problem, route, rest, mixSeed(seed, i, 4111));
    const rowsOfWays = ways.slice(0, MEASURED).map((way) => ({ rows: way.rows, misfit: weightOf(way) }));
    return [...measured(problem, answer.routes, route, rowsOfWays, enough), own];
  });
  // What is by hand may differ by more: that is the user's business.
  const allowed = Math.max(spread, spreadOf(answer.routes));
  const chosen = chooseRounded(problem, offered, { spread: allowed, enough, perSpare: PER_SPARE });
  const routes = chosen?.map(({ route }) => route) ?? answer.routes;
  const spare = provenSpare(problem, routes);
  const free = routes.filter((route) => problem.kept[route.start] === undefined);
  return {
    answer: { ...answer, routes, spare, welds: weldsOf(routes) },
    rounding: {
      snapped: free.flatMap((route) => misfitOf(problem, route)),
      exact: free.filter(({ rows }) => !rows).map(({ start }) => (problem.starts[start] as RouteStart).id),
      spread: spreadOf(routes),
      spare,
    },
  };
}

const spreadOf = (routes: readonly Candidate[]): number => {
  const lengths = routes.map(({ length }) => length);
  return Math.max(...lengths) - Math.min(...lengths);
};

function misfitOf(problem: RouteProblem, { start, slot, rows }: Candidate): Rounding['snapped'] {
  if (rows === undefined) return [];
  const from = problem.starts[start] as RouteStart;
  const { distance, angle } = missOf(centreLineOf(from, rows).end, problem.slots[slot] as RouteSlot);
  return [{ primary: from.id, misfit: { distance, angle: degrees(angle) } }];
}

/**
 * Of ways of rounding, those that keep limits and welds and are proved clear of what stands still and of
 * themselves; the best of them, as measured against the other primaries as they stand. Least cost first.
 */
function measured(
  problem: RouteProblem,
  routes: readonly Candidate[],
  route: Candidate,
  ways: readonly { readonly rows: readonly CentreLineRow[]; readonly misfit: number }[],
  enough: number,
): readonly Choosable[] {
  const march = { floor: PROVING, stop: 0, cap: enough + PROVING };
  return ways
    .flatMap(({ rows, misfit }) => {
      const next = withRows(problem, route, rows);
      const cost = misfit + PER_LENGTH * Math.abs(next.length - route.length);
      if (!keepsLimits(problem, next.start, next.line) || next.welds > route.welds) return [];
      const { line, start, slot, clrs } = next;
      const still = spareToObstacles(problem, line, start, slot, march) - PROVING / 2;
      if (still < 0) return [];
      const spare = Math.min(still, spareToItself(problem, start, line, clrs, march) - PROVING);
      if (spare < 0) return [];
      const about = routes.reduce(
        (cap, other) =>
          other === route ? cap : leastSpareBetween(line, other.line, problem.apart, { ...ROUGH, cap }),
        spare,
      );
      return [{ route: { ...next, spare: still }, cost, spare, rank: cost + PER_SPARE * (enough - about) }];
    })
    .sort((a, b) => a.rank - b.rank)
    .slice(0, OFFERED)
    .sort((a, b) => a.cost - b.cost);
}

/** A primary along other rows; its clearance is not measured. */
function withRows(problem: RouteProblem, route: Candidate, rows: readonly CentreLineRow[]): Candidate {
  const line = centreLineOf(problem.starts[route.start] as RouteStart, rows);
  const packed = packCentreLine(line);
  return {
    ...route,
    rows,
    points: Float64Array.from(intersectionPointsOf(line).points.flat()),
    line: packed,
    length: builtLengthOf(problem, route.start) + line.length,
    welds: weldsOfLine(problem, route.start, packed, route.clrs),
    spare: NaN,
  };
}
