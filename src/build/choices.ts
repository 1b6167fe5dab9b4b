import { Refusal } from '../base/problems.js';
import { didYouMean } from '../base/suggest.js';

/** What `--only` may name: the families of parts as `families.ts` makes them, and the cut list. */
export const familyNames = ['flange', 'strongback', 'merge-plate', 'cradle', 'primary', 'cut-list'] as const;

/**
 * Names that a list option does not know, told with the nearest that it does.
 * @throws Refusal build/unknown-choice
 */
export function refuseUnknown(given: readonly string[], known: readonly string[], option: string): void {
  const unknown = given.filter((each) => !known.includes(each));
  if (given.length > 0 && unknown.length === 0) return;
  throw new Refusal(
    (given.length === 0 ? ['nothing'] : unknown).map((each) => ({
      code: 'build/unknown-choice',
      severity: 'error',
      what: `${option} ${each} is not known.${didYouMean(each, known)}`,
      why: 'nothing can be made under that name',
      fix: `choose from ${known.join(', ')}`,
    })),
  );
}
