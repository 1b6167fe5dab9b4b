/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import * as z from 'zod/mini';
import type { Leaves } from './leaf.js';
import { noted } from './notes.js';
import { either, maybe, section } from './shapes.js';

/** Corrections at the bench: what became of pieces of the cut list. */
export function asCutSection(l: Leaves) {
  const length = (says: string, low: number, example: string) =>
    maybe(l.length({ says, low, high: 5000, example }));
  const one = either(
    'what became of a piece: good, scrap, or what it measures now',
    [
      l.choice(['good', 'scrap'], {
        says: 'good: cut as planned and tacked on, stays as it is; scrap: to be cut anew from what is left',
      }),
      section('a piece that came out otherwise and is used all the same: what it measures now', {
        angle: maybe(
          l.angle({ says: 'how far the bend turns, measured', low: 0.1, high: 180, example: '88' }),
        ),
        leg_up: length('its leg on the side of the flange, from the tangent point', 0.1, '57'),
        leg_down: length('its leg on the side of the collector, from the tangent point', 0.1, '57'),
        length: length('the length of a straight, along its axis', 1, '210'),
      }),
    ],
    'scrap',
  );
  return noted(z.record(z.string(), one), {
    description: 'pieces that are cut already, by their name on the cut list',
    example: '{ P1-2: { angle: 88 }, P2-2: scrap }',
  });
}
