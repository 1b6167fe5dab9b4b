import { degrees, tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import type { CradlePlace, TackFixtureSpec } from '../job/job.js';
import { cradleBox, cradleFaults, cradleLimits, type CradleFault } from './cradle-limits.js';
import type { Placing } from './cradle-place.js';
import type { CradlePart } from './parts.js';

const mm = (value: number): string => `${tidy(value, 1)} mm`;
const deg = (angle: number): string => `${tidy(degrees(angle), 1)} deg`;

/** What stands in a cradle's way where it was asked, in words. */
function hindranceWords({ hindrance }: Placing): string {
  if (hindrance === undefined) return '';
  if (hindrance.of === 'tilt')
    return `the tube climbs ${deg(Math.abs(hindrance.found))} there (limit ${deg(cradleLimits.steepest)})`;
  const beside = hindrance.of === 'end' ? "the tube's end" : `the end of the ${hindrance.piece}`;
  return `the saddle needs ${mm(hindrance.needs)} of the ${hindrance.piece} each way and ${beside} is ${mm(hindrance.room)} away`;
}

/** Tells of a cradle that was moved, or could not be stood anywhere near. */
export function placingProblems(place: CradlePlace, placing: Placing): readonly Problem[] {
  const { standing, hindrance, nearest } = placing;
  if (hindrance === undefined) return [];
  const where = { path: `${place.path}.station` };
  const found = `${place.primary} at ${mm(place.station)}: ${hindranceWords(placing)}`;
  if (standing !== undefined)
    return [
      {
        code: 'cradle/moved',
        severity: 'note',
        what: `${found}; moved to ${mm(standing.station)}`,
        why:
          hindrance.of === 'tilt'
            ? 'a tube that climbs steeply slides along its saddle'
            : 'a saddle across the end of a bend touches the tube on one edge only',
        fix: `put station: ${tidy(standing.station, 1)} in the job`,
        place: where,
      },
    ];
  return [
    {
      code: hindrance.of === 'end' ? 'cradle/off-the-tube' : 'cradle/no-place',
      severity: 'error',
      what: found,
      why: 'the tube would rock or slide in its saddle while it is tacked',
      fix:
        nearest === undefined
          ? `no place on ${place.primary} will do: take a narrower cradle (tack_fixture.cradle.width), or turn the base plane so that the tube lies flatter over it`
          : `the nearest place that will do is station: ${tidy(nearest, 1)}`,
      place: where,
    },
  ];
}

/** Whether a cradle prints on the bed, either way round. */
export function bedProblems(part: CradlePart, place: CradlePlace, fixture: TackFixtureSpec): Problem[] {
  const { along, across, high } = cradleBox(part);
  const [x, y, z] = fixture.printerBed;
  const flat = (along <= x && across <= y) || (along <= y && across <= x);
  if (flat && high <= z) return [];
  const over = high - z;
  return [
    {
      code: 'cradle/off-the-bed',
      severity: 'error',
      what: `${part.name} is ${mm(along)} x ${mm(across)} and ${mm(high)} high; the printer makes ${tidy(x, 0)} x ${tidy(y, 0)} x ${tidy(z, 0)}`,
      why: 'it cannot be printed in one piece standing on its foot',
      fix:
        over > 0
          ? `move the base plane ${mm(Math.ceil(over))} nearer to the header (tack_fixture.base.at), or put the cradle where the tube runs lower`
          : `take tabs ${mm(Math.ceil((across - Math.max(x, y)) / 2))} shorter (tack_fixture.cradle.foot.tab)`,
      place: { path: over > 0 ? place.path : 'tack_fixture.cradle.foot.tab' },
    },
  ];
}

/** What is said of each limit that a cradle breaks. Those that are the same for all are told once by the caller. */
export const faultProblems = (
  part: CradlePart,
  place: CradlePlace,
  cradle: TackFixtureSpec['cradle'],
): Problem[] => [
  ...cradleFaults(part, cradle.wall).map((fault) => faultProblem(fault, part, place, cradle)),
  ...slenderProblems(part, place),
];

function faultProblem(
  { of, found, limit }: CradleFault,
  part: CradlePart,
  place: CradlePlace,
  cradle: TackFixtureSpec['cradle'],
): Problem {
  const error = { severity: 'error' } as const;
  if (of === 'floor')
    return {
      ...error,
      code: 'cradle/too-low',
      what: `${part.name}: the tube's axis runs ${mm(part.height)} over the base, which leaves ${mm(found)} of wall under the saddle (at least ${mm(limit)})`,
      why: 'the saddle would break through into the slot, the foot or the base plate',
      fix: `move tack_fixture.base.at ${mm(Math.ceil((limit - found) * 10) / 10)} away from the header, along the base's normal`,
      place: { path: place.path },
    };
  if (of === 'strap')
    return {
      ...error,
      code: 'cradle/strap-too-wide',
      what: `the strap's slot is ${mm(found)} wide in a cradle ${mm(part.width)} wide (at most ${mm(limit)})`,
      why: 'the cradle breaks beside the slot when the strap is pulled tight',
      fix: `set tack_fixture.cradle.strap.width: ${tidy(limit, 1)}, or width: ${tidy(part.width + found - limit, 1)}`,
      place: { path: 'tack_fixture.cradle.strap.width' },
    };
  if (of === 'foot')
    return {
      ...error,
      code: 'cradle/hole-too-big',
      what: `the screw hole of ${mm(found)} leaves less than ${mm(cradleLimits.besideHole)} of plastic round it (at most ${mm(limit)})`,
      why: 'the tab breaks off under the screw',
      fix: `set tack_fixture.cradle.foot.tab: ${tidy(found + 2 * cradleLimits.besideHole, 1)} or more, in a cradle as wide`,
      place: { path: 'tack_fixture.cradle.foot.hole' },
    };
  if (of === 'embrace')
    return {
      ...error,
      code: 'cradle/bad-saddle',
      what: `the saddle reaches ${deg(found)} round the tube (limit ${deg(limit)})`,
      why: found < limit ? 'the tube rolls out' : 'the tube cannot be lifted out once it is tacked',
      fix: `set tack_fixture.cradle.embrace: ${deg(limit)}`,
      place: { path: 'tack_fixture.cradle.embrace' },
    };
  // Slope and breadth are the program's own doing: places are chosen and blocks made to suit.
  return {
    ...error,
    code: 'cradle/bug',
    what: `${part.name}: ${of} of ${tidy(found)} breaks its limit of ${tidy(limit)}`,
    why: 'the program placed or sized the cradle wrongly',
    fix: `leave out ${place.path}, embrace ${deg(cradle.embrace)}, and report this`,
    place: { path: place.path },
  };
}

function slenderProblems(part: CradlePart, place: CradlePlace): Problem[] {
  const most = cradleLimits.slender * part.width;
  if (part.height <= most) return [];
  return [
    {
      code: 'cradle/slender',
      severity: 'warning',
      what: `${part.name} holds the tube ${mm(part.height)} up on a foot ${mm(part.width)} wide (up to ${mm(most)} stands firm)`,
      why: 'it rocks along the tube and the tube wanders between tacks',
      fix: `set tack_fixture.cradle.width: ${tidy(Math.ceil(part.height / cradleLimits.slender), 0)}, or bring the base plane ${mm(Math.ceil(part.height - most))} nearer`,
      place: { path: place.path },
    },
  ];
}
