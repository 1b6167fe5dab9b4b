import { tidy } from '../base/numbers.js';
import { isError, type Outcome, type Problem } from '../base/problems.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { CradlePlace, Job, TackFixtureSpec } from '../job/job.js';
import { clashProblems, standOf, type CradleStand } from './cradle-clashes.js';
import { halfHeld, heatProblems } from './cradle-heat.js';
import { cradlePart } from './cradle-part.js';
import { standAt, type Placing, type Standing } from './cradle-place.js';
import { baseFrame } from './cradle-pose.js';
import { bedProblems, faultProblems, placingProblems } from './cradle-problems.js';
import { chooseStations } from './cradle-stations.js';
import { madeAnew, offItsSaddle } from './cradles-anew.js';
import type { CradlePart } from './parts.js';
import type { WeldPlaces } from './pieces/index.js';
import type { CentreLines } from './routes-by-hand.js';

/** The cradles of a job, each with its foot's place on the base plate. */
interface Fixture {
  readonly cradles: readonly {
    readonly part: CradlePart;
    readonly stand: CradleStand;
    readonly path: string;
  }[];
  readonly problems: readonly Problem[];
}

/**
 * The printed cradles that hold the primaries for tacking, one at each station asked, numbered along each
 * tube from the flange: cradle-P1-1, cradle-P1-2, ...
 * A cradle across the end of a bend or on too steep a tube is moved along it by the least that cures it.
 * Where the job leaves the stations to the program they are chosen here, and told.
 * @param lines the primaries' centre lines; those by hand come from `linesByHand`
 * @param weldsOf where the pieces may be joined; asked only where stations are to be chosen
 * @param routed the lines as routed, where tubes came out otherwise: stations are chosen on these, and a cradle
 * made for them stays where it still holds its tube
 * @returns all the cradles, or none and what keeps them from being made; moves and cautions beside
 */
export function designCradles(
  job: Job,
  lines: CentreLines,
  weldsOf?: () => WeldPlaces | undefined,
  routed?: CentreLines,
): Outcome<readonly CradlePart[]> {
  const { cradles, problems } = fixtureOf(job, lines, weldsOf, routed);
  return { value: problems.some(isError) ? undefined : cradles.map(({ part }) => part), problems };
}

/**
 * Where the cradles' feet stand on the base plate: seen from above, x along the bench's `right` as far as
 * the plate allows, its origin at `tack_fixture.base.at`. Only of those that can be made.
 */
export const cradleStands = (job: Job, lines: CentreLines): readonly CradleStand[] =>
  fixtureOf(job, lines).cradles.map(({ stand }) => stand);

function fixtureOf(
  job: Job,
  lines: CentreLines,
  weldsOf?: () => WeldPlaces | undefined,
  routed: CentreLines = lines,
): Fixture {
  const { tackFixture: fixture, tube } = job;
  if (fixture === undefined || tube === undefined) return { cradles: [], problems: [missing(job)] };
  const base = baseFrame(fixture.base);
  const { at } = fixture.cradle;
  const asked =
    at === 'auto' ? chooseStations(job, fixture, tube, routed, weldsOf?.()) : { places: at, problems: [] };
  const problems: Problem[] = [...asked.problems];
  const standing: Stood[] = [];
  for (const place of asked.places) {
    const line = lines.get(place.primary);
    const refused = line === undefined ? noRoute(place, lines) : offTheTube(place, line);
    if (line === undefined || refused !== undefined) {
      if (refused !== undefined) problems.push(refused);
      continue;
    }
    const on = (which: CentreLine): Placing => standAt(fixture.cradle, tube.od, base, which, place.station);
    const route = routed.get(place.primary) ?? line;
    const asRouted = route === line ? undefined : on(route).standing;
    const off = asRouted && offSaddle(asRouted, route, line, fixture);
    const stays = asRouted !== undefined && off !== undefined && off <= asRouted.shape.clearance;
    const placing = stays ? on(route) : on(line);
    problems.push(...placingProblems(place, placing));
    if (placing.standing !== undefined)
      standing.push({ place, line: stays ? route : line, standing: placing.standing, off: off ?? 0 });
  }
  const order = ({ primary }: CradlePlace): number => job.ports.findIndex(({ id }) => id === primary);
  const count = new Map<string, number>();
  const cradles = standing
    .sort((a, b) => order(a.place) - order(b.place) || a.standing.station - b.standing.station)
    .map(({ place, line, standing: stood, off }) => {
      const number = (count.get(place.primary) ?? 0) + 1;
      count.set(place.primary, number);
      const part = cradlePart(place.primary, number, stood, fixture, tube);
      problems.push(...faultProblems(part, place, fixture.cradle), ...bedProblems(part, place, fixture));
      problems.push(...heatProblems(part, place, line, job));
      return { part, off, stand: standOf(part, stood.pose.at, stood.pose.azimuth), path: place.path };
    });
  problems.push(...madeAnew(cradles, 'tack_fixture.cradle.at'));
  problems.push(...clashProblems(cradles, base, lines));
  return { cradles, problems: once(problems) };
}

/** A cradle where it stands, and how far the tube as it came out lies off the saddle for its route, mm. */
interface Stood {
  readonly place: CradlePlace;
  readonly line: CentreLine;
  readonly standing: Standing;
  readonly off: number;
}

/** How far a tube lies off the saddle that stands for its route, mm. */
function offSaddle(
  { station, pose }: Standing,
  route: CentreLine,
  made: CentreLine,
  { cradle }: TackFixtureSpec,
): number {
  const half = halfHeld({ width: cradle.width, tilt: pose.tilt });
  return offItsSaddle(route, station - half, station + half, made);
}

/** What is wrong with the whole job is told once, not once a cradle. */
const once = (problems: readonly Problem[]): readonly Problem[] =>
  problems.filter(
    (one, i) => problems.findIndex((other) => other.code === one.code && other.what === one.what) === i,
  );

function missing(job: Job): Problem {
  const lacks = job.tackFixture === undefined ? 'tack_fixture' : 'tube';
  return {
    code: 'cradle/missing-section',
    severity: 'error',
    what: `the job has no ${lacks} section`,
    why: 'a cradle is made to a tube, over a base plane, at a station',
    fix:
      lacks === 'tube'
        ? 'add tube: { od: 42.4, wall: 1.6 } with your own measures'
        : 'add tack_fixture: { base: { at: [0, -600, 0] } } with your own measures',
    place: { path: lacks },
  };
}

function noRoute(place: CradlePlace, lines: CentreLines): Problem {
  const known = [...lines.keys()].join(', ');
  return {
    code: 'cradle/no-route',
    severity: 'error',
    what: `${place.primary} has no route; ${known === '' ? 'no primary has one' : `those that have: ${known}`}`,
    why: 'without a centre line there is nothing to hold',
    fix: `give its rows under primaries.by_hand.${place.primary}, or leave this cradle out`,
    place: { path: `${place.path}.primary` },
  };
}

function offTheTube(place: CradlePlace, line: CentreLine): Problem | undefined {
  if (place.station >= 0 && place.station <= line.length) return undefined;
  return {
    code: 'cradle/off-the-tube',
    severity: 'error',
    what: `station ${tidy(place.station, 1)} mm is not on ${place.primary}, which is ${tidy(line.length, 1)} mm long`,
    why: 'a cradle past the end of its tube holds nothing',
    fix: `take a station from 0 to ${tidy(Math.floor(line.length), 0)}`,
    place: { path: `${place.path}.station` },
  };
}
