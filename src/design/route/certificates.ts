import { tolerance } from '../../base/tolerance.js';
import { add, distance3, scale } from '../../base/vectors.js';
import { leastSpare, type Found } from '../../geom/line-to-solids.js';
import { STRIDE, type PackedLine } from '../../geom/packed-line.js';
import { doubtOf, type SolidSet } from '../../geom/solids.js';
import { leastAssignment } from './assign.js';
import type { Obstacle } from './obstacles.js';
import { builtLengthOf, surroundingsOf, type RouteProblem } from './problem.js';
import { leastWayRound } from './way-round.js';

/** A proof that no set of primaries exists, whatever the search: what it rests on, with figures in mm. */
export type Certificate =
  | {
      readonly kind: 'stub blocked';
      readonly primary: string;
      readonly obstacle: string;
      readonly short: number;
      /** The longest first straight that is not proved to be blocked; 0 where even the port is. */
      readonly longest: number;
    }
  | {
      readonly kind: 'slot blocked';
      readonly slot: string;
      readonly obstacle: string;
      readonly short: number;
      /** The longest last straight that is not proved to be blocked; 0 where even the slot is. */
      readonly longest: number;
    }
  | {
      /** No slot is near enough to some primary: even the shortest way is longer than the window. */
      readonly kind: 'too far';
      readonly primary: string;
      readonly slot: string;
      readonly least: number;
      readonly window: number;
      /** The box that the way leads round; undefined where the straight line is already too long. */
      readonly round: string | undefined;
    }
  /** Every primary has a slot it could reach, but not all of them one of their own. */
  | {
      readonly kind: 'slots shared';
      readonly primaries: readonly string[];
      /** The longest of the shortest ways, taken so that it is as short as can be: the window must reach it. */
      readonly least: number;
      readonly window: number;
    };

/** Names of the obstacles that a proof rests on. */
export const obstaclesOf = (proof: Certificate): readonly string[] =>
  'obstacle' in proof ? [proof.obstacle] : 'round' in proof && proof.round !== undefined ? [proof.round] : [];

const PROVING = 0.1;

/** The straight from `s` to `t` as a line of its own. */
function straightLine(at: readonly number[], along: readonly number[], length: number): PackedLine {
  const data = new Float64Array(STRIDE);
  data.set([0, 0, length, ...at, ...along]);
  return { data, pieces: 1, length };
}

/** What blocks a straight for certain: an obstacle that it enters, and by how much. */
function blockedBy(
  line: PackedLine,
  solids: SolidSet,
  named: readonly Obstacle[],
  radius: number,
): { obstacle: string; short: number } | undefined {
  const found: Found = { solid: -1, station: 0 };
  const march = { floor: PROVING, stop: -Infinity, cap: 0 };
  // A march never finds less than the truth: what it finds short is short. Fields are exact there, but what a
  // mesh only stands for may lie further off.
  const least = leastSpare(line, solids, [0, line.length], radius, march, found);
  const spare = found.solid < 0 ? least : least + doubtOf(solids, found.solid);
  const obstacle = named[found.solid]?.name;
  return spare < -PROVING && obstacle !== undefined ? { obstacle, short: -spare } : undefined;
}

/** The longest straight (mm, to the proving step) for which `blocked` does not hold; it holds for `most`. */
function longestClear(most: number, blocked: (length: number) => boolean): number {
  let [low, high] = [0, most];
  if (blocked(low)) return 0;
  while (high - low > PROVING) {
    const middle = (low + high) / 2;
    if (blocked(middle)) high = middle;
    else low = middle;
  }
  return low;
}

/** Proofs that a problem has no answer; none found does not mean that it has one. */
export function certificatesOf(problem: RouteProblem): readonly Certificate[] {
  const { starts, slots, limits, od } = problem;
  const found: Certificate[] = [];
  starts.forEach((start, i) => {
    if (problem.kept[i]) return;
    // Over the stub all of its heads are waived.
    const { beginnings } = surroundingsOf(problem, i, 0);
    const { solids, named } = beginnings[0] as (typeof beginnings)[0];
    const blocking = (length: number): ReturnType<typeof blockedBy> =>
      blockedBy(straightLine(start.at, start.direction, length), solids, named, od / 2);
    const blocked = blocking(start.stub);
    // Sleeves belong to a slot; what blocks a stub must block it whatever the slot.
    if (blocked && named.some((o) => o.name === blocked.obstacle && o.slot === undefined)) {
      const longest = longestClear(start.stub, (length) => blocking(length) !== undefined);
      found.push({ kind: 'stub blocked', primary: start.id, ...blocked, longest });
    }
  });
  slots.forEach((slot, j) => {
    // A primary given by hand keeps its slot, whatever stands there.
    if (problem.kept.some((one) => one?.slot === j)) return;
    const { lastStraight } = surroundingsOf(problem, 0, j);
    const blocking = (length: number): ReturnType<typeof blockedBy> => {
      const from = add(slot.at, scale(slot.direction, -length));
      const { solids, named } = lastStraight;
      return blockedBy(straightLine(from, slot.direction, length), solids, named, od / 2);
    };
    const blocked = blocking(limits.lastStraight);
    if (blocked === undefined) return;
    const longest = longestClear(limits.lastStraight, (length) => blocking(length) !== undefined);
    found.push({ kind: 'slot blocked', slot: slot.id, ...blocked, longest });
  });
  if (found.length > 0) return found;
  return tooFar(problem);
}

/** The shortest way from a port to a slot that could be, and the box that it leads round. */
function leastWay(problem: RouteProblem, i: number, j: number): { least: number; round: string | undefined } {
  const { limits, od } = problem;
  const taken = problem.kept.findIndex((one) => one?.slot === j);
  // A kept primary has its slot, and nobody else has it.
  if (problem.kept[i] || taken >= 0) return { least: taken === i ? 0 : Infinity, round: undefined };
  const start = problem.starts[i] as RouteProblem['starts'][number];
  const slot = problem.slots[j] as RouteProblem['slots'][number];
  const a = add(start.at, scale(start.direction, start.stub));
  const b = add(slot.at, scale(slot.direction, -limits.lastStraight));
  const ends = start.stub + limits.lastStraight + builtLengthOf(problem, i);
  let best = { least: ends + distance3(a, b), round: undefined as string | undefined };
  // Only what nobody is waived from counts: the collector's parts and the port's own head do not.
  for (const { solid, clear, headOf, ofCollector, name } of problem.obstacles) {
    if (solid.kind !== 'box' || ofCollector || headOf.includes(start.id)) continue;
    const least = ends + leastWayRound(a, b, solid, od / 2 + clear);
    if (least > best.least + PROVING) best = { least, round: name };
  }
  return best;
}

function tooFar(problem: RouteProblem): readonly Certificate[] {
  const window = problem.limits.window.to;
  const ways = problem.starts.map((_, i) => problem.slots.map((_, j) => leastWay(problem, i, j)));
  // A way just as long as the window must not be lost to the last digit.
  const reaches = ({ least }: { least: number }, longest = window): boolean =>
    least <= longest + tolerance.samePoint;
  const goes = (longest: number): boolean =>
    leastAssignment(
      ways.map((row) => row.map((way) => (reaches(way, longest) ? 0 : Infinity))),
      problem.orders,
    ) === 0;
  if (goes(window)) return [];
  const far: Certificate[] = [];
  ways.forEach((row, i) => {
    if (row.some((way) => reaches(way))) return;
    let nearest = 0;
    row.forEach(({ least }, j) => {
      if (least < (row[nearest]?.least ?? Infinity)) nearest = j;
    });
    far.push({
      kind: 'too far',
      primary: problem.starts[i]?.id ?? '',
      slot: problem.slots[nearest]?.id ?? '',
      least: row[nearest]?.least ?? Infinity,
      window,
      round: row[nearest]?.round,
    });
  });
  if (far.length > 0) return far;
  const lengths = ways.flatMap((row) => row.map(({ least }) => least)).sort((a, b) => a - b);
  const least = lengths.find((length) => length > window && goes(length)) ?? Infinity;
  return [{ kind: 'slots shared', primaries: problem.starts.map(({ id }) => id), least, window }];
}
