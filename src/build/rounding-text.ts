import { tidy } from '../base/numbers.js';
import type { Rounding } from '../design/route/index.js';

/** What rounding the routes to half degrees and half millimetres came to, in words. */
export function roundingText({ snapped, exact, spread, spare }: Rounding): string {
  const left =
    exact.length === 0
      ? ''
      : `${exact.join(', ')} ${exact.length > 1 ? 'stay' : 'stays'} exact: no round numbers met the slot clear of everything.`;
  if (snapped.length === 0) return left;
  const most = (of: (misfit: { distance: number; angle: number }) => number): number =>
    Math.max(...snapped.map(({ misfit }) => of(misfit)));
  const told = [
    `ends miss their slots by at most ${tidy(
      most(({ distance }) => distance),
      1,
    )} mm and ${tidy(
      most(({ angle }) => angle),
      1,
    )} deg`,
    `lengths differ by ${tidy(spread, 1)} mm`,
    `least clearance ${tidy(spare, 1)} mm over what is asked`,
  ];
  return `Rounded to half degrees and half millimetres: ${told.join(', ')}.${left === '' ? '' : ` ${left}`}`;
}
