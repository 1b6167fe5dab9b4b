/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import * as z from 'zod/mini';
import { tubeGauges } from '../tables/gauges.js';
import type { Leaves } from './leaf.js';
import { noted } from './notes.js';
import { either, fixed, heading, list, maybe, place, section } from './shapes.js';

export function engineSection(l: Leaves) {
  return section('the engine', {
    cylinders: l.count({ says: 'how many cylinders it has', low: 1, high: 16, example: '4' }),
    firing_order: maybe(
      list(
        'the cylinders in the order in which they fire',
        l.count({ says: 'a cylinder', low: 1, high: 16 }),
        1,
        16,
      ),
    ),
    capacity: maybe(l.capacity({ says: 'its capacity', low: 20, high: 30_000, example: '1998 cc' })),
    tuned_for: maybe(
      l.speed({
        says: 'the engine speed the header is tuned for',
        low: 500,
        high: 25_000,
        example: '7200 rpm',
      }),
    ),
    exhaust_opens: maybe(
      l.angle({
        says: 'how far before bottom dead centre the exhaust valve opens, in degrees of crank',
        low: 10,
        high: 130,
        example: '70',
      }),
    ),
  });
}

export function tubeSection(l: Leaves) {
  return section('the tube of the primaries', {
    od: l.length({ says: 'the outside diameter, measured', low: 6, high: 150, example: '42.4' }),
    wall: l.wall({ says: 'the wall', low: 0.3, high: 12, example: '1.6' }, tubeGauges),
    material: maybe(l.word({ says: 'what it is made of', example: '"304"', most: 40 })),
  });
}

/** One row of a route by hand. Which of the two kinds it is, and their order, is checked afterwards. */
function row(l: Leaves) {
  return either(
    'one row of a route: a straight or a bend',
    [
      section('a straight', {
        straight: l.length({ says: 'its length', low: 0, high: 5000, example: '40' }),
      }),
      section('a bend', {
        clr: l.length({ says: 'the radius of its centre line', low: 5, high: 1000, example: '63.6' }),
        angle: l.angle({ says: 'how far it turns the tube', low: 0.1, high: 180, example: '90' }),
        clock: l.angle({
          says: 'which way it turns: clocking against the bend before, right hand about the flow',
          low: -360,
          high: 360,
          example: '0',
        }),
      }),
    ],
    '{ straight: 40 }',
  );
}

export function primariesSection(l: Leaves) {
  const straight = (says: string, example: string) => maybe(l.length({ says, low: 0, high: 1000, example }));
  const gap = () => maybe(l.length({ says: 'the gap on the diameter', low: 0, high: 3, example: '0.4' }));
  return section('the tubes from the ports to the collector', {
    stub: straight('the least first straight, at the flange', '30'),
    between: straight('the least straight between bends', '5'),
    last_straight: straight('the least last straight, at the collector', '60'),
    joint_at_flange: maybe(
      either(
        'how the tube meets the flange: butt, through, or a section with more',
        [
          l.choice(['butt', 'through', 'socket'], {
            says: 'butted on, set through the plate, or into a socket',
          }),
          section('how the tube meets the flange, with its measures', {
            socket: maybe(
              section('into a socket', {
                depth: maybe(
                  l.length({
                    says: 'how deep the tube goes into the plate',
                    low: 0.5,
                    high: 50,
                    example: '5',
                  }),
                ),
                gap: gap(),
              }),
            ),
            through: maybe(
              section('through the plate', {
                recess: maybe(
                  l.length({
                    says: "how far the tube's end stays short of the gasket face",
                    low: 0,
                    high: 50,
                    example: '2',
                  }),
                ),
                gap: gap(),
              }),
            ),
          }),
        ],
        'butt',
      ),
    ),
    least_angle: maybe(l.angle({ says: 'the least angle of a bend', low: 0, high: 90, example: '5' })),
    largest_angle: maybe(l.angle({ says: 'the largest angle of a bend', low: 5, high: 180, example: '150' })),
    built: maybe(
      noted(
        z.record(
          z.string(),
          either(
            'how far a primary is built: whole, or up to a weld',
            [
              l.choice(['whole'], { says: 'welded together from end to end' }),
              section('built up to a weld, its open end measured', {
                up_to: l.length({
                  says: "where that weld stands along the tube's centre line, from the flange",
                  low: 1,
                  high: 5000,
                  example: '312.5',
                }),
                end: maybe(
                  section('its open end as measured; as designed where left out', {
                    at: place(l, "the centre of the tube's open end"),
                    direction: heading(l, 'the way it points, along the flow'),
                  }),
                ),
              }),
            ],
            'whole',
          ),
        ),
        {
          description:
            'primaries that stand already: kept as frozen, only what is missing of them is found anew',
          example: '{ P1: whole, P2: { up_to: 312.5 } }',
        },
      ),
    ),
    by_hand: maybe(
      noted(z.record(z.string(), list('the rows of a route by hand', row(l), 1, 60)), {
        description: 'routes by hand, by primary; the router finds the others',
        example: '{ P1: [{ straight: 100 }] }',
      }),
    ),
  });
}

export function collectorSection(l: Leaves) {
  const move = (says: string) => maybe(l.length({ says, low: 0, high: 1000, example: '10' }));
  return section('where the primaries merge', {
    kind: maybe(l.choice(['merge', 'plate and cone'], { says: 'a merge collector, or a plate with a cone' })),
    joint: maybe(
      l.choice(['slip', 'welded'], {
        says: 'slip: tubes parallel to the flow in sleeves; welded: tubes lean from the mouth',
      }),
    ),
    at: place(l, "on its axis, level with the tubes' ends"),
    flow: either(
      'the way the gas flows through it: [right, up, out], or by angle finder { down, heading }',
      [
        heading(l, 'the way the gas flows through it'),
        section('by angle finder', {
          down: l.angle({ says: 'how far it points below level', low: -90, high: 90, example: '70' }),
          heading: maybe(
            l.angle({ says: 'seen from above, from out toward right', low: -360, high: 360, example: '20' }),
          ),
        }),
      ],
      '{ right: 0, up: -1, out: 0 }',
    ),
    half_angle: maybe(
      l.angle({ says: 'how far each tube leans in toward the axis', low: 0, high: 30, example: '8' }),
    ),
    clocking: maybe(
      l.angle({
        says: 'of slot S1 from the clocking zero, right hand about the flow; left out: free',
        low: -360,
        high: 360,
        example: '45',
      }),
    ),
    slot_gap: maybe(
      l.length({
        says: "the gap between neighbouring tubes' surfaces at the slots",
        low: 0,
        high: 100,
        example: '5',
      }),
    ),
    slip: maybe(
      section('the slip joints', {
        depth: maybe(
          l.length({ says: 'how deep a tube sits in its sleeve', low: 5, high: 200, example: '45' }),
        ),
        gap: maybe(
          l.length({ says: 'on the diameter, over the measured OD', low: 0.05, high: 3, example: '0.4' }),
        ),
        sleeve_wall: maybe(
          l.wall({ says: 'the wall of the sleeves', low: 0.3, high: 12, example: '1.6' }, tubeGauges),
        ),
      }),
    ),
    body: maybe(
      section('the room the collector takes, for clearances', {
        length: maybe(l.length({ says: 'its length along the flow', low: 10, high: 1000, example: '160' })),
        diameter: maybe(l.length({ says: 'its diameter', low: 20, high: 600, example: '110' })),
        clear: maybe(
          l.length({ says: 'kept between it and the primaries', low: 0, high: 200, example: '4' }),
        ),
      }),
    ),
    outlet: maybe(
      section('its outlet', {
        od: l.length({ says: 'the outside diameter', low: 10, high: 300, example: '60.3' }),
      }),
    ),
    may_move: maybe(
      section('how far the router may shift it', {
        along: move('along its axis, either way'),
        across: move('across its axis'),
        tilt: maybe(l.angle({ says: 'out of line', low: 0, high: 45, example: '3' })),
      }),
    ),
    slots: maybe(
      either(
        'which primary goes to which slot: shortest, firing, or one slot for each primary',
        [
          l.choice(['shortest', 'firing'], {
            says: 'the router chooses, or neighbours round the ring fire in turn',
          }),
          list(
            'the slot of each primary, in order',
            l.word({ says: 'a slot, such as S1', example: 'S1', most: 8 }),
            1,
            12,
          ),
        ],
        'shortest',
      ),
    ),
  });
}

export function lengthSection(l: Leaves) {
  const one = (says: string) => l.length({ says, low: 50, high: 5000, example: '800' });
  return section('the length of every primary, along its centre line', {
    target: maybe(one('the length asked')),
    between: maybe(fixed('from the least to the most', [one('the least'), one('the most')], '[700, 850]')),
    spread: maybe(
      l.length({
        says: 'how far the lengths may differ: spent on half degrees and half millimetres; 0.5 mm or less keeps the routes exact',
        low: 0,
        high: 100,
        example: '2',
      }),
    ),
  });
}
