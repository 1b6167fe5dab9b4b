import { radians } from '../../src/base/numbers.js';
import { saddleSpan } from '../../src/design/cradle-limits.js';
import type { CradlePart } from '../../src/design/parts.js';

/** A cradle for a 42.4 tube, to be spread and changed: invented, of the size a fixture has. */
export function trialCradle(over: Partial<CradlePart> = {}): CradlePart {
  const part: CradlePart = {
    kind: 'cradle',
    name: 'cradle-P1-1',
    family: 'cradle',
    title: 'Tube cradle P1-1',
    od: 42.4,
    clearance: 0.3,
    height: 60,
    tilt: 0,
    bend: undefined,
    width: 20,
    halfBreadth: 0,
    embrace: radians(170),
    strap: { width: 13, depth: 3, floor: 20 },
    foot: { thickness: 6, tab: 15, hole: 4.5 },
    engraving: { text: 'P1-1 60', depth: 0.6, height: 6 },
    remarks: [],
    primary: 'P1',
    station: 60,
    ...over,
  };
  return { ...part, halfBreadth: over.halfBreadth ?? Math.ceil(2 * (saddleSpan(part).sideways + 6)) / 2 };
}
