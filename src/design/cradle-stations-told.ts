import { degrees, tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import type { Candidate, Candidates, Kept, Surroundings } from './cradle-candidates.js';
import { cradleLimits } from './cradle-limits.js';
import { HEAT_DISTANCE } from './cradle-heat.js';

const mm = (value: number): string => `${tidy(value, 1)} mm`;

/** The stations of one primary. */
export interface ChosenOn {
  readonly primary: string;
  readonly stations: readonly number[];
}

/** Tells the stations chosen, in a form that can be written into the job; nothing where none was. */
export function chosenNote(chosen: readonly ChosenOn[]): readonly Problem[] {
  const held = chosen.filter(({ stations }) => stations.length > 0);
  if (held.length === 0) return [];
  const words = held.map(({ primary, stations }) => `${primary} at ${stations.map(station).join(' and ')}`);
  const rows = held.flatMap(({ primary, stations }) =>
    stations.map((at) => `{ primary: ${primary}, station: ${station(at)} }`),
  );
  return [
    {
      code: 'cradle/stations-chosen',
      severity: 'note',
      what: `cradles hold ${words.join(', ')} mm along the tube from the flange`,
      why: 'stations are chosen anew where the routes or the rack change; cradles printed before may then not fit',
      fix: `to keep them, write at: [${rows.join(', ')}]`,
      place: { path: 'tack_fixture.cradle.at' },
    },
  ];
}

const station = (at: number): string => tidy(at, 1);

const words: Readonly<Record<Kept, string>> = {
  heat: `nearer than ${HEAT_DISTANCE} mm to where it may be welded`,
  joint: 'where a saddle would lie across the end of a bend',
  steep: `steeper than ${tidy(degrees(cradleLimits.steepest), 0)} deg over the base plane`,
  low: 'too low over the base plane for a cradle',
  bed: 'higher than the printer reaches',
  flange: 'over the flange',
  tube: 'over another tube',
};

/** What depends on where the base plane lies, and the share of a tube from which on that matters. */
const byBase: ReadonlySet<Kept> = new Set(['steep', 'low', 'bed', 'flange', 'tube']);
const WORTH = 0.15;
/** Less than this gained on a cradle's width changes nothing, mm. */
const WORTH_NARROWING = 3;

/** What to change, for the thing that takes most. */
function cure(kept: Kept, by: number, { fixture }: Surroundings): string {
  const { width, strap } = fixture.cradle;
  // No narrower than its strap allows; told only where that gives room worth having.
  const narrow = strap === undefined ? width / 2 : strap.width + 2 * cradleLimits.besideStrap;
  const narrower =
    narrow <= width - WORTH_NARROWING
      ? `take a narrower cradle (tack_fixture.cradle.width: ${tidy(narrow, 1)}), or `
      : '';
  switch (kept) {
    case 'heat':
    case 'joint':
      return `${narrower}give it longer straights (primaries.between, last_straight)`;
    case 'steep':
      return `turn the base plane (tack_fixture.base.normal) by ${tidy(Math.ceil(degrees(by)), 0)} deg or more, so that the tube lies flatter over it`;
    case 'low':
      return `move tack_fixture.base.at ${mm(Math.ceil(by))} or more away from the header, along the base's normal`;
    case 'bed':
      return `move tack_fixture.base.at ${mm(Math.ceil(by))} or more nearer to the header, along the base's normal`;
    case 'flange':
      return 'turn the base plane (tack_fixture.base.normal) so that the tubes do not run over the flange';
    case 'tube':
      return 'turn the base plane (tack_fixture.base.normal) so that the tubes lie side by side over it';
  }
}

/**
 * Says why a primary is held by one cradle or none, and what would give it two. One cradle and the sleeve of a
 * slip joint hold it too, so that is a note.
 */
export function heldTooLittle(
  around: Surroundings,
  { all, lost, tried }: Candidates,
  held: readonly Candidate[],
  sleeved: boolean,
): Problem {
  const { primary } = around;
  const ranked = [...lost].sort(([, a], [, b]) => b.count - a.count);
  const share = (count: number): string => `${tidy((100 * count) / tried, 0)} %`;
  const reasons = ranked.map(([kept, { count }]) => `${share(count)} of it lies ${words[kept]}`);
  // Heat and joints take their share of every tube: what another base plane would cure is named first.
  const worst = ranked.find(([kept, { count }]) => byBase.has(kept) && count > WORTH * tried) ?? ranked[0];
  const shared = all.length > 0 ? ['what is left is too short for two well apart, or taken'] : [];
  const cradles = held.length === 0 ? 'no cradle' : 'one cradle';
  const holders = sleeved ? `${cradles} and its sleeve at the collector` : `${cradles} only`;
  return {
    code: 'cradle/held-too-little',
    severity: sleeved && held.length > 0 ? 'note' : 'warning',
    what: `${primary} is held by ${holders}: ${[...reasons, ...shared].join('; ')}`,
    why: 'a tube held at fewer than two places swings out of line while it is tacked',
    fix:
      (sleeved
        ? 'stand the collector firmly in its place before this tube is tacked; for two cradles, '
        : '') + (worst === undefined ? 'give it a longer route' : cure(worst[0], worst[1].by, around)),
    place: { path: 'tack_fixture.cradle' },
  };
}
