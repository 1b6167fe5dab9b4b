import { tidy } from '../base/numbers.js';
import type { Rounding } from '../design/route/index.js';

/** What rounding the routes to half degrees and half millimetres came to, in words. */
export function roundingText({ snapped, exact, spread, spare }: Rounding): string {
  const left =
    exact.length === 0
      ? ''
      : `${exact.join(', ')} ${exact.length > 1 ? 'stay' : 'stays'} exact: no round numbers met the slot clear of everything.`;
  if (snapped.length === 0) return left;
  // What is "at most" is rounded up, what is "least" down.
  const distance = Math.max(...snapped.map(({ misfit }) => misfit.distance));
  const angle = Math.max(...snapped.map(({ misfit }) => misfit.angle));
  const told = [
    `ends miss their slots by at most ${tidy(Math.ceil(distance * 100) / 100, 2)} mm and ${tidy(Math.ceil(angle * 100) / 100, 2)} deg`,
    `lengths differ by ${tidy(Math.ceil(spread * 10) / 10, 1)} mm`,
    `least clearance ${tidy(Math.floor(spare * 10) / 10, 1)} mm over what is asked`,
  ];
  return `Rounded to half degrees and half millimetres: ${told.join(', ')}.${left === '' ? '' : ` ${left}`}`;
}
