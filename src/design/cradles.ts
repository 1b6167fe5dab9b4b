import { strapUnder } from './cradle-limits.js';
import { degrees, tidy } from '../base/numbers.js';
import { isError, type Outcome, type Problem } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import type { CentreLine } from '../geom/centre-line.js';
import type { CradlePlace, Job, TackFixtureSpec, Tube } from '../job/job.js';
import { clashProblems, standOf, type CradleStand } from './cradle-clashes.js';
import { heatProblems } from './cradle-heat.js';
import { standAt, type Standing } from './cradle-place.js';
import { baseFrame } from './cradle-pose.js';
import { bedProblems, faultProblems, placingProblems } from './cradle-problems.js';
import { letterWidth } from './lettering.js';
import type { CradlePart } from './parts.js';
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
 * @param lines the primaries' centre lines; those by hand come from `linesByHand`
 * @returns all the cradles, or none and what keeps them from being made; moves and cautions beside
 */
export function designCradles(job: Job, lines: CentreLines): Outcome<readonly CradlePart[]> {
  const { cradles, problems } = fixtureOf(job, lines);
  return { value: problems.some(isError) ? undefined : cradles.map(({ part }) => part), problems };
}

/**
 * Where the cradles' feet stand on the base plate: seen from above, x along the bench's `right` as far as
 * the plate allows, its origin at `tack_fixture.base.at`. Only of those that can be made.
 */
export const cradleStands = (job: Job, lines: CentreLines): readonly CradleStand[] =>
  fixtureOf(job, lines).cradles.map(({ stand }) => stand);

function fixtureOf(job: Job, lines: CentreLines): Fixture {
  const { tackFixture: fixture, tube } = job;
  if (fixture === undefined || tube === undefined) return { cradles: [], problems: [missing(job)] };
  const base = baseFrame(fixture.base);
  const problems: Problem[] = [];
  const standing: { place: CradlePlace; line: CentreLine; standing: Standing }[] = [];
  for (const place of fixture.cradle.at) {
    const line = lines.get(place.primary);
    const refused = line === undefined ? noRoute(place, lines) : offTheTube(place, line);
    if (line === undefined || refused !== undefined) {
      if (refused !== undefined) problems.push(refused);
      continue;
    }
    const placing = standAt(fixture.cradle, tube.od, base, line, place.station);
    problems.push(...placingProblems(place, placing));
    if (placing.standing !== undefined) standing.push({ place, line, standing: placing.standing });
  }
  const order = ({ primary }: CradlePlace): number => job.ports.findIndex(({ id }) => id === primary);
  const count = new Map<string, number>();
  const cradles = standing
    .sort((a, b) => order(a.place) - order(b.place) || a.standing.station - b.standing.station)
    .map(({ place, line, standing: stood }) => {
      const number = (count.get(place.primary) ?? 0) + 1;
      count.set(place.primary, number);
      const part = cradlePart(place, number, stood, fixture, tube);
      problems.push(...faultProblems(part, place, fixture.cradle), ...bedProblems(part, place, fixture));
      problems.push(...heatProblems(part, place, line, job));
      return { part, stand: standOf(part, stood.pose.at, stood.pose.azimuth), path: place.path };
    });
  problems.push(...clashProblems(cradles, base, lines));
  return { cradles, problems: once(problems) };
}

/** What is wrong with the whole job is told once, not once a cradle. */
const once = (problems: readonly Problem[]): readonly Problem[] =>
  problems.filter(
    (one, i) => problems.findIndex((other) => other.code === one.code && other.what === one.what) === i,
  );

function cradlePart(
  place: CradlePlace,
  number: number,
  { station, pose, shape, span }: Standing,
  fixture: TackFixtureSpec,
  tube: Tube,
): CradlePart {
  const { cradle } = fixture;
  const label = `${place.primary}-${number}`;
  const text = `${label} ${tidy(station, 1)}`;
  const halfBreadth = Math.ceil(2 * (span.sideways + cradle.wall) - tolerance.samePoint) / 2;
  return {
    kind: 'cradle',
    name: `cradle-${label}`,
    family: 'cradle',
    title: `Tube cradle ${label}`,
    od: tube.od,
    clearance: shape.clearance,
    height: pose.height,
    tilt: pose.tilt,
    bend: pose.bend,
    width: cradle.width,
    halfBreadth,
    embrace: cradle.embrace,
    strap: strapUnder(cradle.strap, cradle.foot, span, cradle.wall),
    foot: cradle.foot,
    engraving: { text, depth: cradle.engrave, height: engravedHeight(text, 2 * halfBreadth) },
    remarks: remarks(place.primary, station, { station, pose, shape, span }, cradle),
    primary: place.primary,
    station,
  };
}

/** The largest lettering up to 6 mm, in half millimetres, that leaves a tenth of the face free at each end. */
const engravedHeight = (text: string, room: number): number =>
  Math.min(6, Math.max(2, Math.floor((2 * 0.8 * room) / letterWidth(text, 1)) / 2));

function remarks(
  primary: string,
  station: number,
  { pose, shape }: Standing,
  cradle: TackFixtureSpec['cradle'],
): readonly string[] {
  const on = pose.bend === undefined ? 'a straight' : `a bend of CLR ${tidy(pose.bend.clr, 1)}`;
  const [x, y] = pose.at;
  return [
    `Holds ${primary} at ${tidy(station, 1)} mm along its centre line, on ${on}; axis ${tidy(pose.height, 2)} mm over the base, rising ${tidy(degrees(pose.tilt), 2)} deg along the flow.`,
    `Foot on the base plate at x ${tidy(x, 2)}, y ${tidy(y, 2)}, turned ${tidy(degrees(pose.azimuth), 2)} deg counter-clockwise seen from above.`,
    `Saddle ${tidy(shape.clearance, 2)} mm clear of the tube all round. Prints standing on its foot, without support; 4 perimeters.`,
    ...(cradle.strap === undefined
      ? ['No strap slot: hold the tube down by hand or tape, clear of the tack.']
      : []),
    'Plastic softens far below the heat of a tack: near 59 C for PLA, 77 for PETG, 105 for ABS. Keep it 40 mm from every tack, tack in short bursts and let each cool.',
    'Never weld out in a plastic cradle: take the header out once it is tacked. Heated plastic gives off harmful fumes; work with extraction, and follow local rules for hot work.',
  ];
}

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
        : 'add tack_fixture: { base: { at: [0, -600, 0] }, cradle: { at: [{ primary: P1, station: 120 }] } } with your own measures',
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
