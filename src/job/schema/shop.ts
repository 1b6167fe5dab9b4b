/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import type { Leaves } from './leaf.js';
import { maybe, section } from './shapes.js';

export function shopSection(l: Leaves) {
  const number = (says: string, low: number, high: number, example: string, why?: string) =>
    maybe(l.number({ says, low, high, example, ...(why === undefined ? {} : { why }) }));
  const off = (says: string, high: number, example: string) =>
    maybe(l.length({ says, low: 0, high, example }));
  const turn = (says: string) => maybe(l.angle({ says, low: 0, high: 10, example: '0.5' }));
  return section('how this shop saws and welds: what estimates are made from', {
    weld_price: number('what one weld costs, in the money of the rack', 0, 1e5, '12'),
    fit_up: number('fitting, tacking and dressing of one weld, in minutes', 0, 600, '12'),
    travel: number('how far a weld gets along its seam, in mm per minute', 5, 1000, '45'),
    bead: number('section of the filler in a seam, in mm2; 0 where none is used', 0, 50, '3'),
    deposition: number(
      'the share of the filler that stays in the weld',
      0.3,
      1,
      '0.95',
      'the rest is stubs and spatter',
    ),
    purge_flow: number('argon into the tube, in litres per minute', 0.5, 50, '5'),
    purge_changes: number(
      'how often the gas in a tube is changed before it is welded',
      1,
      30,
      '8',
      'each change leaves about a third of the air that was there',
    ),
    hand: maybe(
      section('how far a hand is off without a fixture, one standard deviation', {
        cut: off('of a sawn face along the tube', 5, '0.5'),
        tilt: turn('of a sawn face out of square'),
        clock: turn('of a piece turned to its clocking'),
      }),
    ),
    cradle_place: off('how far a cradle stands from its place, one standard deviation', 5, '0.3'),
    tape: off('what a tape can be read to: marks are rounded to it; 0: they are not', 5, '0.5'),
    weld_off_wrench: off("kept between a tube with a weld on it and the room of a stud's wrench", 60, '2'),
  });
}
