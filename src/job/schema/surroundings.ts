/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import { neighbourKinds } from '../tables/neighbours.js';
import type { Leaves } from './leaf.js';
import { fileUnitNames } from '../tables/file-units.js';
import { either, fixed, heading, list, maybe, place, section } from './shapes.js';
import { printerBed } from './ports.js';

/** Which way a neighbour may come out, as you stand looking at the exhaust face. */
export const waysOut = ['left', 'right', 'up', 'down', 'out'] as const;

export function keepOutsSection(l: Leaves) {
  const round = (says: string) =>
    maybe(
      section(says, {
        from: place(l, 'one end of its axis'),
        to: place(l, 'the other end of its axis'),
        diameter: l.length({ says: 'its diameter', low: 0.5, high: 2000, example: '24' }),
      }),
    );
  const file = (says: string) => maybe(l.word({ says, example: 'subframe.stl', most: 260 }));
  const inFile = (which: string) =>
    l.number({ says: `the ${which} of its numbers`, low: -1e6, high: 1e6, example: '0.12' });
  const one = section('one solid that the header must stay clear of: exactly one body', {
    name: l.word({ says: 'what it is called in reports', example: 'steering shaft', most: 80 }),
    kind: maybe(
      l.choice(neighbourKinds, {
        says: 'what it is: gives a usual clearance, which `clear` overrides',
        example: 'steering',
      }),
    ),
    shielded: maybe(l.flag({ says: 'it stands behind a heat shield' })),
    clear: maybe(l.length({ says: 'the clearance kept to it', low: 0, high: 500, example: '8' })),
    fixed_to: maybe(
      l.choice(['engine', 'body'], { says: 'what it moves with; engines roll on their mounts' }),
    ),
    moves: maybe(l.flag({ says: 'it moves against the engine, as a steering shaft does' })),
    head_of: maybe(
      list(
        'the primaries that begin inside its clearance',
        l.word({ says: 'a primary', example: 'P1', most: 8 }),
        0,
        12,
      ),
    ),
    comes_out: maybe(
      l.choice(waysOut, {
        says: 'the way it is drawn out when it is taken off for service',
        example: 'left',
      }),
    ),
    box: maybe(
      section('a box along the frame', {
        from: place(l, 'one corner'),
        to: place(l, 'the corner across from it'),
      }),
    ),
    cylinder: round('a cylinder with flat ends'),
    capsule: round('a cylinder with round ends'),
    plane: maybe(
      section('everything on the far side of a plane', {
        at: place(l, 'a point on it'),
        normal: heading(l, 'away from the solid side'),
      }),
    ),
    mesh: file('an STL file beside the job'),
    step: file('a STEP file beside the job'),
    file_unit: maybe(
      l.choice(fileUnitNames, { says: 'the unit of an STL file, which does not tell: mm where left out' }),
    ),
    matched: maybe(
      list(
        "points found both in the file and on the engine, which put the file into the engine's frame",
        section('one such point', {
          in_file: fixed(
            "its three numbers in the file, in the file's unit (STEP: mm)",
            [inFile('first'), inFile('second'), inFile('third')],
            '[0.12, -0.4, 1.1]',
          ),
          at: place(l, 'where it stands'),
        }),
        3,
        12,
      ),
    ),
  });
  return list('solids that the header must stay clear of', one, 0, 400);
}

export function clearSection(l: Leaves) {
  const one = (says: string, example: string) => maybe(l.length({ says, low: 0, high: 200, example }));
  return section('clearances where nothing else is said', {
    tube_to_tube: one('between two primaries', '6'),
    near_slots: one("where a last bend stands beside another's last bend or straight", '4'),
    keep_out: one('to keep-outs', '8'),
  });
}

export function wrenchSection(l: Leaves) {
  return section('how the nuts are tightened', {
    tool: maybe(
      l.choice(['socket', 'spanner'], { says: 'the tool that must reach every nut', example: 'socket' }),
    ),
  });
}

function cradlePlace(l: Leaves) {
  return section('one place', {
    primary: l.word({ says: 'the primary it holds', example: 'P1', most: 8 }),
    station: l.length({
      says: 'how far along its centre line, from its start',
      low: 0,
      high: 5000,
      example: '120',
    }),
  });
}

export function tackFixtureSection(l: Leaves) {
  const size = (says: string, low: number, high: number, example: string) =>
    maybe(l.length({ says, low, high, example }));
  return section('printed holders that keep the tubes in place for tacking', {
    cradle: maybe(
      section('one holder', {
        width: size('its width along the tube', 4, 200, '20'),
        wall: size('material left under and beside the tube', 1, 60, '6'),
        clearance: maybe(
          section('added to the radius of the saddle', {
            straight: size('on a straight', 0, 5, '0.3'),
            bend: size('on a bend, which is never quite round', 0, 5, '0.6'),
          }),
        ),
        embrace: maybe(
          l.angle({
            says: 'how far round the tube the saddle reaches',
            low: 40,
            high: 180,
            example: '170',
            why: 'the tube cannot be lifted out of a saddle that reaches round more than half of it, and falls out of a shallow one',
          }),
        ),
        strap: maybe(
          either(
            'a slot for a strap, or none',
            [
              l.choice(['none'], { says: 'no strap' }),
              section('a slot for a strap', {
                width: size('its width', 1, 60, '13'),
                depth: size('its depth', 0.5, 20, '3'),
              }),
            ],
            'none',
          ),
        ),
        foot: maybe(
          section('its foot', {
            thickness: size('its thickness', 1, 40, '6'),
            tab: size('how far its tabs stand out', 0, 100, '15'),
            hole: size('the screw holes in them', 1, 20, '4.5'),
          }),
        ),
        engrave: size('the depth of engraved names; 0 leaves them out', 0, 3, '0.6'),
        at: maybe(
          either(
            'where holders are wanted: auto, or a list of places',
            [
              l.choice(['auto'], { says: 'the program chooses two places on each primary' }),
              list('where holders are wanted', cradlePlace(l), 0, 100),
            ],
            'auto',
          ),
        ),
      }),
    ),
    base: maybe(
      section('the plane the holders stand on', {
        at: place(l, 'a point on it'),
        normal: maybe(heading(l, 'square off it, toward the tubes')),
      }),
    ),
    printer_bed: maybe(printerBed(l)),
  });
}
