/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import type { Leaves } from './leaf.js';
import { maybe, section } from './shapes.js';

export function serviceSection(l: Leaves) {
  const heat = (says: string, low: number, high: number, example: string) =>
    maybe(l.number({ says: `${says}, in degrees Celsius`, low, high, example }));
  return section('how the header goes on and comes off, and how it grows when hot', {
    margin: maybe(
      l.length({
        says: 'kept between what is moved and what is in place',
        low: 0,
        high: 50,
        example: '1',
      }),
    ),
    beyond: maybe(
      l.length({
        says: 'how much further than its slip joint, its studs or its own size a thing is drawn',
        low: 0,
        high: 200,
        example: '3',
      }),
    ),
    hot: maybe(
      section('mean temperatures of the metal when the engine is worked hard', {
        primaries: heat('the primaries', 100, 900, '600'),
        apart: heat('how much cooler one primary may run than another', 0, 400, '100'),
        head: heat("the head's face and the flange on it", 20, 400, '150'),
        collector: heat('the collector', 20, 900, '500'),
      }),
    ),
  });
}
