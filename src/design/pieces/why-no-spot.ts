import { tidy } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import type { Problem } from '../../base/problems.js';
import type { NoWeld, PrimaryToCut, Straight } from './primary.js';
import type { CuttingRules } from './rules.js';
import { waysOf } from './ways.js';

/** Never less than it, to 0.1 mm. */
const roundedUp = (length: number): number => Math.ceil(length * 10 - tolerance.samePoint) / 10;
const mm = (length: number): string => `${tidy(length, 1)} mm`;

/** No longer leg is looked for, mm. */
const LONGEST_LEG = 1000;
/** A cradle is not moved further, mm. */
const FARTHEST = 150;

/**
 * Which stretches without welds keep a primary from being made, and the least that would free it: each is named
 * with its stations and its key.
 * @param own the straight that cannot be made, without what is beyond the flange, mm
 */
export function noSpotTold(
  primary: PrimaryToCut,
  rules: CuttingRules,
  straight: Straight | undefined,
  own: number,
): Pick<Problem, 'code' | 'what' | 'why' | 'fix'> {
  const begins = primary.begins ?? 0;
  const goes = (zones: readonly NoWeld[], other: Partial<CuttingRules> = {}): boolean =>
    waysOf({ ...primary, noWeld: zones }, { ...rules, ...other }).stuckAt === undefined;
  // Those furthest from the straight are tried first as not to blame.
  const middle = (straight?.at ?? 0) + (straight?.length ?? 0) / 2;
  const off = ([from, to]: NoWeld): number => Math.max(from - middle, middle - to);
  let kept: readonly NoWeld[] = [];
  for (const zone of [...primary.noWeld].sort((a, b) => off(b) - off(a)))
    if (goes([...kept, zone])) kept = [...kept, zone];
  const blamed = primary.noWeld.filter((zone) => !kept.includes(zone)).sort((a, b) => a[0] - b[0]);

  const named = blamed.map(([from, to, why]) => {
    const key = why === undefined ? '' : ` (${why.path})`;
    return `${why?.what ?? 'a stretch'} from ${mm(from + begins)} to ${mm(to + begins)}${key}`;
  });
  const leg = leastThat(LONGEST_LEG, (more) => {
    const longer = rules.bends.map((bend) => {
      const [a, b] = bend.usable;
      return { ...bend, usable: [a > 0 ? a + more : 0, b > 0 ? b + more : 0] as const };
    });
    return goes(primary.noWeld, { bends: longer });
  });
  const stock = leg === undefined ? [] : [`take stock with legs ${mm(leg)} longer`];
  const at = straight === undefined ? '' : ` at ${mm(Math.max(0, straight.at) + begins)}`;
  return {
    code: 'pieces/no-weld-spot',
    what: `${primary.id} has no place for a weld at its straight of ${mm(own)}${at}: none may stand in ${named.join(', nor in ')} along it from the flange`,
    why: 'a weld there could not be reached, or would keep the joint or the nut from going on',
    fix: [...cures(blamed, kept, goes), ...stock].join(', or '),
  };
}

/** What would free the primary, by what stands there. */
function cures(
  blamed: readonly NoWeld[],
  kept: readonly NoWeld[],
  goes: (zones: readonly NoWeld[]) => boolean,
): readonly string[] {
  const [zone, ...others] = blamed;
  if (zone === undefined) return [];
  const [from, to, why] = zone;
  const span = blamed.reduce((longest, [a, b]) => Math.max(longest, b - a), 0);
  if (others.length > 0) {
    const both = leastThat(span / 2, (less) =>
      goes([...kept, ...blamed.map(([a, b]) => [a + less, b - less] as const)]),
    );
    return [`free ${mm(both ?? span / 2)} at each end of them`];
  }
  const path = why?.path ?? '';
  if (path.startsWith('collector.slip')) {
    const less = leastThat(span, (by) => goes([...kept, [from + by, to]])) ?? span;
    return [`make the slip joint ${mm(less)} less deep, or the last straight as much longer`];
  }
  if (path.startsWith('tack_fixture')) {
    for (let by = 1; by <= FARTHEST; by++)
      for (const [way, sign] of [
        ['toward the collector', 1],
        ['toward the flange', -1],
      ] as const)
        // prettier-ignore
        if (goes([...kept, [from + sign * by, to + sign * by]])) return [`move it ${by} mm ${way}`];
  }
  const behind = leastThat(span, (by) => goes([...kept, [from + by, to]])) ?? span;
  const before = leastThat(span, (by) => goes([...kept, [from, to - by]])) ?? span;
  const side = behind <= before ? 'at its end toward the flange' : 'at its end toward the collector';
  const how = /stud|wrench/.test(`${path} ${why?.what ?? ''}`) ? ' (a slimmer tool, less shop.weld_off_wrench, or the bend elsewhere)' : ''; // prettier-ignore
  return [`free ${mm(Math.min(behind, before))} of it ${side}${how}`];
}

/** The least of a size, up to a most, for which something holds that holds for every larger one; rounded up. */
function leastThat(most: number, holds: (size: number) => boolean): number | undefined {
  if (!holds(most)) return undefined;
  let [low, high] = [0, most];
  while (high - low > tolerance.file) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  const told = roundedUp(high);
  return Math.min(told, most);
}
