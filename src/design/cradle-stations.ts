import type { Problem } from '../base/problems.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { CradlePlace, Job, TackFixtureSpec, Tube } from '../job/job.js';
import { candidatesOn, type Candidate, type Candidates, type Surroundings } from './cradle-candidates.js';
import { footOverlap, seenTubes } from './cradle-clashes.js';
import { flangePoints } from './cradle-flange.js';
import { baseFrame } from './cradle-pose.js';
import { chosenNote, heldTooLittle } from './cradle-stations-told.js';
import type { WeldPlaces } from './pieces/index.js';
import type { CentreLines } from './routes-by-hand.js';

/** Stations are first looked for on whole steps of this, as a tape is read, then on finer ones (mm). */
const STEPS = [5, 1] as const;
/** Two cradles nearer than so many diameters hold little better than one. Common practice, no source. */
const APART = 1.5;
/** Two cradles on one straight leave the tube free to roll: as bad as so many mm less between them. */
const ROLLS = 100;
/** Pairs looked at before the choice is made primary by primary. */
const LOOKS = 20_000;

/** The stations chosen, and what is told of them. */
export interface StationsChosen {
  readonly places: readonly CradlePlace[];
  readonly problems: readonly Problem[];
}

type Held = readonly Candidate[];

/**
 * Chooses where cradles hold the primaries: two on each, far apart, on straights and low where that can be,
 * rather not both on one straight; each where a saddle can stand, 40 mm from every weld, beside every foot,
 * tube and flange. Where there is room for one only, that one, and what is in the way is told. As every saddle opens away from the base, the header is lifted out of them all at once.
 * @param welds where the pieces may be joined; where a primary is not in it, both ends of every bend are taken
 */
export function chooseStations(
  job: Job,
  fixture: TackFixtureSpec,
  tube: Tube,
  lines: CentreLines,
  welds: WeldPlaces | undefined,
): StationsChosen {
  const base = baseFrame(fixture.base);
  const common = { fixture, tube, base, tubes: seenTubes(base, lines), flange: flangePoints(job, base) };
  const primaries = [...lines].map(([primary, line]): Primary => {
    const around = { ...common, primary, line, welds: weldsOn(job, line, welds?.get(primary)) };
    return pairsOn(around, APART * tube.od);
  });
  const held = allAtOnce(primaries) ?? oneByOne(primaries);
  const chosen = primaries.map(({ around }, i) => ({
    primary: around.primary,
    stations: (held[i] ?? []).map(({ station }) => station),
  }));
  return {
    places: chosen.flatMap(({ primary, stations }) =>
      stations.map((station): CradlePlace => ({ primary, station, path: PATH })),
    ),
    problems: [
      ...primaries.flatMap(({ around, found }, i) =>
        (held[i]?.length ?? 0) < 2
          ? [heldTooLittle(around, found, held[i] ?? [], job.collector?.joint === 'slip')]
          : [],
      ),
      ...chosenNote(chosen),
    ],
  };
}

const PATH = 'tack_fixture.cradle.at';

/** Stations of heat along a primary: flange, collector (a sleeve's mouth), and between. */
function weldsOn({ collector }: Job, line: CentreLine, between: readonly number[] | undefined): number[] {
  const bends = line.pieces.filter(({ kind }) => kind === 'bend');
  const inner = between ?? bends.flatMap(({ station, length }) => [station, station + length]);
  const sleeve = collector?.joint === 'slip' ? collector.slip.depth : 0;
  return [0, ...inner, line.length - sleeve, ...(sleeve > 0 ? [line.length] : [])];
}

/** A primary with every pair of places that hold it, best first. */
interface Primary {
  readonly around: Surroundings;
  readonly found: Candidates;
  readonly pairs: readonly Held[];
}

function pairsOn(around: Surroundings, apart: number): Primary {
  let last: Primary | undefined;
  for (const step of STEPS) {
    const found = candidatesOn(around, step);
    const pairs = found.all.flatMap((a, i) =>
      found.all.slice(i + 1).flatMap((b) => (b.station - a.station >= apart ? [[a, b]] : [])),
    );
    const ranked = pairs
      .map((pair) => ({ pair, cost: costOf(around, pair) }))
      .sort((a, b) => a.cost - b.cost)
      .map(({ pair }) => pair);
    last = { around, found, pairs: ranked };
    if (ranked.length > 0) break;
  }
  if (last === undefined) throw new Error('no step to look on');
  return last;
}

function costOf({ line }: Surroundings, [a, b]: readonly Candidate[]): number {
  if (a === undefined || b === undefined) return Infinity;
  const rolls = a.piece === b.piece && line.pieces[a.piece]?.kind === 'straight' ? ROLLS : 0;
  return a.cost + b.cost + rolls - (b.station - a.station);
}

/** Whether feet lie beside all those that stand already. */
const fits = (held: Held, standing: Held): boolean =>
  held.every((one, i) =>
    [...standing, ...held.slice(i + 1)].every((other) => footOverlap(one.stand, other.stand) <= 0),
  );

/** A pair for every primary, each the best that leaves one for the next; undefined where none is soon found. */
function allAtOnce(primaries: readonly Primary[]): readonly Held[] | undefined {
  // The primary with the least choice comes first.
  const order = primaries.map((_, i) => i);
  order.sort((a, b) => pairsOf(primaries, a).length - pairsOf(primaries, b).length || a - b);
  let looks = 0;
  const chosen: Held[] = [];
  const seek = (at: number): boolean => {
    if (at === order.length) return true;
    for (const pair of pairsOf(primaries, order[at] ?? 0)) {
      if (looks++ > LOOKS) return false;
      if (!fits(pair, chosen.flat())) continue;
      chosen.push(pair);
      if (seek(at + 1)) return true;
      chosen.pop();
    }
    return false;
  };
  return seek(0) ? primaries.map((_, i) => chosen[order.indexOf(i)] ?? []) : undefined;
}

const pairsOf = (primaries: readonly Primary[], i: number): readonly Held[] => primaries[i]?.pairs ?? [];

/** The best pair of each that stands beside those before it, or else the best single place. */
function oneByOne(primaries: readonly Primary[]): readonly Held[] {
  const chosen: Held[] = [];
  for (const { found, pairs } of primaries) {
    const singles = [...found.all].sort((a, b) => a.cost - b.cost).map((one) => [one]);
    const standing = chosen.flat();
    chosen.push([...pairs, ...singles].find((held) => fits(held, standing)) ?? []);
  }
  return chosen;
}
