/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import type { Leaves } from './leaf.js';
import { either, fixed, heading, list, maybe, place, section, spot } from './shapes.js';

const sides = ['top', 'bottom', 'left', 'right'] as const;

/** The opening in the head: one of the forms, turned as it lies. */
function shape(l: Leaves) {
  const side = (says: string, example: string) => l.length({ says, low: 5, high: 250, example });
  const corner = (says: string) => l.length({ says, low: 0, high: 125, example: '12' });
  return section('the opening in the head, drawn about its centre: exactly one form, and perhaps `turned`', {
    circle: maybe(section('a round port', { diameter: side('its diameter', '38') })),
    obround: maybe(
      section('a port with two straight sides and two half-round ends, long side along the row', {
        length: side('its length over the round ends, along the row', '46'),
        width: side('its width, across the row', '32'),
      }),
    ),
    ellipse: maybe(
      section('an oval port', {
        width: side('its size along the row', '44'),
        height: side('its size across the row', '34'),
      }),
    ),
    rounded_rectangle: maybe(
      section('a rectangular port with round corners', {
        width: side('its size along the row', '38'),
        height: side('its size across the row', '34'),
        corner: corner('the radius of its corners'),
      }),
    ),
    d_shape: maybe(
      section('a D: one straight side, the side across from it round', {
        width: side('its size along the row', '40'),
        height: side('its size across the row', '36'),
        flat: l.choice(sides, {
          says: 'where its straight side lies, seen from the tube side',
          example: 'top',
        }),
        corner: corner('the radius of the two corners at the straight side'),
      }),
    ),
    turned: maybe(
      l.angle({
        says: 'turned counter-clockwise as seen from the tube side',
        low: -180,
        high: 180,
        example: '15',
      }),
    ),
  });
}

/** Which way a port points: tilts off square to its face. */
function leaving(l: Leaves) {
  const tilt = (says: string) => l.angle({ says, low: -75, high: 75, example: '12' });
  return section('the way the gas leaves: how far it tilts off square to the face', {
    down: maybe(tilt('how far it points downward')),
    right: maybe(tilt('how far it points to the right')),
  });
}

export function portsSection(l: Leaves) {
  const onePort = section('one port', {
    at: place(l, 'the centre of its opening'),
    direction: maybe(heading(l, 'the way the gas leaves')),
    leaving: maybe(leaving(l)),
    face: maybe(
      section("the face it stands on, where that is not the head's own (a V engine)", {
        normal: heading(l, 'square off the face, out of the metal'),
        up: maybe(heading(l, 'roughly which way is up on it')),
      }),
    ),
    shape: maybe(shape(l)),
    turned: maybe(
      l.angle({
        says: 'turns the shape of this port, counter-clockwise as seen from the tube side',
        low: -180,
        high: 180,
      }),
    ),
  });
  return section('where the exhaust leaves the head', {
    shape: maybe(shape(l)),
    row: maybe(
      section('ports in one row along the face, port 1 at the origin', {
        count: l.count({ says: 'how many ports stand in the row', low: 1, high: 12, example: '4' }),
        pitch: maybe(
          l.length({
            says: 'the distance from one port to the next, centre to centre',
            low: 10,
            high: 500,
            example: '92',
          }),
        ),
        first: maybe(
          l.choice(['left', 'right'], { says: 'at which end port 1 stands, as you look at the head' }),
        ),
      }),
    ),
    each: maybe(list('every port by itself', onePort, 1, 12)),
    leaving: maybe(leaving(l)),
    measured_on: maybe(
      l.choice(['head', 'gasket', 'flange'], {
        says: 'the face that the places were measured on',
        example: 'head',
      }),
    ),
  });
}

export function studsSection(l: Leaves) {
  const hole = () => maybe(l.length({ says: 'the diameter of the hole', low: 3, high: 40, example: '9' }));
  const thread = () => maybe(l.word({ says: 'the thread, such as M8 or 5/16', example: 'M8', most: 20 }));
  const stud = (says: string) =>
    either(
      says,
      [
        spot(l, says),
        section(`${says}, with a hole of its own`, { at: spot(l, says), hole: hole(), thread: thread() }),
      ],
      '[-33, 20]',
    );
  return section('the fastenings of the flange', {
    thread: thread(),
    hole: hole(),
    fit: maybe(l.choice(['fine', 'medium', 'coarse'], { says: 'the room a hole leaves its stud (ISO 273)' })),
    at: maybe(list('every stud on the face, measured from port 1', stud('its place'), 1, 60)),
    beside_each_port: maybe(
      list('studs that stand alike beside every port', stud('its place from the centre of the port'), 1, 8),
    ),
    stands: maybe(
      l.length({
        says: "how far the studs stand out of the head's face",
        low: 5,
        high: 300,
        example: '28',
      }),
    ),
    slotted: maybe(
      section('longer holes along the row, so that a hot flange can grow', {
        by: l.length({ says: 'how much longer than wide', low: 0.2, high: 10, example: '2' }),
        fixed: maybe(
          l.count({
            says: 'the number of the stud whose hole stays round, counted from 1',
            low: 1,
            high: 96,
          }),
        ),
      }),
    ),
  });
}

export function printerBed(l: Leaves) {
  const side = (says: string) => l.length({ says, low: 50, high: 2000 });
  return fixed(
    "the printer's room: [width, depth, height]",
    [side('its width'), side('its depth'), side('its height')],
    '[220, 220, 250]',
  );
}
