import type { Page } from './page.js';

export const cradlePages = {
  'cradle/bug': {
    exit: 1,
    title: 'A fault of the program itself',
    text: 'The program reached a state that its author thought impossible while working on this part. Nothing was written. Please report it with the job file.',
  },
  'cradle/missing-section': {
    exit: 2,
    title: 'The job lacks what a cradle is made from',
    text: 'A cradle needs the tube, the ports, and a tack_fixture section with the plane of the base (`tack_fixture.base.at`).',
  },
  'cradle/no-route': {
    exit: 2,
    title: 'A cradle is asked for a primary that has no route',
    text: 'A cradle holds a tube at a station of its centre line, so the centre line must be known: give the rows of that primary under `primaries.by_hand`, or leave the cradle out until it has a route.',
  },
  'cradle/off-the-tube': {
    exit: 2,
    title: 'A cradle stands past the end of its tube',
    text: "Stations are measured along the centre line from the tube's start at the flange. A station beyond the tube's length, or so near an end that the saddle would overhang it, holds nothing.",
  },
  'cradle/no-place': {
    exit: 2,
    title: 'A cradle cannot stand where it is asked, nor near it',
    text: 'A saddle must lie wholly on one straight or wholly on one bend, or it is neither round nor true and the tube rocks in it. And where the tube climbs steeper than 45 degrees it slides along the saddle while it is tacked. Take a station on a longer straight, a narrower cradle, or turn the base plane.',
  },
  'cradle/moved': {
    exit: 2,
    title: 'A cradle was moved along its tube',
    text: 'At the station asked, the saddle would lie across the end of a bend, or on a tube that climbs too steeply. It was moved along the tube by the least that cures it; its engraved station is the new one. Put the new station in the job to silence this note.',
  },
  'cradle/stations-chosen': {
    exit: 2,
    title: 'The program chose where the cradles stand',
    text: 'With `tack_fixture.cradle.at: auto` two cradles are chosen for every primary: far apart, on straights and low where that can be, 40 mm clear of every place where it may be welded, and clear of other feet, tubes and the flange. The note gives them as a line for the job: write it there once cradles are printed, so that they stay where they are.',
  },
  'cradle/made-anew': {
    exit: 2,
    title: 'A tube came out otherwise and has left its cradles',
    text: 'With pieces entered under as_cut the tube is not quite that of its route. A cradle whose saddle is off it by no more than its clearance is left as it is; the others are made anew at the same station, to be printed again. Stations stay those chosen for the route, so that cradles of the other primaries stay too.',
  },
  'cradle/held-too-little': {
    exit: 2,
    title: 'No two places on a primary would take a cradle',
    text: 'A cradle needs a stretch of one straight or one bend, no steeper than 45 degrees over the base plane, 40 mm from every weld, high enough for its foot and low enough for the printer, beside the flange and the other tubes. The message tells how much of the primary is lost to which of these. The other cradles are made. Tubes that run to a collector side by side often lie over each other there, and then only the lowest can be held from below: the sleeve of a slip joint holds the others, if the collector stands firmly in its place. Or change what takes most.',
  },
  'cradle/too-low': {
    exit: 2,
    title: 'There is no room under the tube for a cradle',
    text: "The saddle must have a wall of plastic under it, then the strap's slot, then the foot. Where the tube runs too low over the base plane, move the base plane away from the header.",
  },
  'cradle/bad-saddle': {
    exit: 2,
    title: 'A saddle that will not hold the tube, or not let it go',
    text: 'A saddle that reaches less than 40 degrees round lets the tube roll out; one that reaches more than 180 degrees cannot be lifted off it once the tube is tacked at both ends.',
  },
  'cradle/strap-too-wide': {
    exit: 2,
    title: "The strap's slot is too wide for the cradle",
    text: "On each side of the strap's slot 2 mm of plastic must stay, or the cradle breaks there when the strap is pulled tight.",
  },
  'cradle/hole-too-big': {
    exit: 2,
    title: 'A screw hole is too big for the foot',
    text: 'Round a screw hole 2 mm of plastic must stay, or the tab breaks off under the screw head.',
  },
  'cradle/off-the-bed': {
    exit: 3,
    title: 'A cradle is larger than the printer can make',
    text: 'The cradle prints standing on its foot, so its height must be within what the printer reaches up, and its foot within the bed, either way round. Move the base plane nearer to the header, take shorter tabs, or name a larger bed.',
  },
  'cradle/slender': {
    exit: 2,
    title: 'A cradle is tall for its width',
    text: 'A tall narrow print on one row of screws rocks along the tube and lets it wander between tacks. Make it wider, or bring the base plane nearer.',
  },
  'cradle/near-heat': {
    exit: 2,
    title: 'A cradle stands too near to a weld',
    text: 'Printing plastics soften far below the heat of a tack (glass transition near 59 C for PLA, 77 for PETG, 105 for ABS). Keep them 40 mm from every tack, tack in short bursts with time to cool, shield them, and never weld out in them. Hot plastic gives off harmful fumes.',
  },
  'cradle/in-sleeve': {
    exit: 2,
    title: "A cradle stands where the collector's sleeve goes",
    text: "A slip joint's sleeve reaches back over the tube by the slip depth and is drawn off along it. A cradle there is in its way.",
  },
  'cradle/feet-clash': {
    exit: 2,
    title: 'The feet of two cradles want the same place',
    text: 'The two feet overlap on the base plate, so one of them cannot be screwed down. Move one along its tube, or take shorter tabs.',
  },
  'cradle/tube-clash': {
    exit: 2,
    title: 'A tube runs through a cradle of another',
    text: 'The block of the cradle stands in the way of a tube that passes below or beside the one it holds: the two cannot be in the fixture together. Move the cradle along its tube.',
  },
  'cradle/misses-slot': {
    exit: 2,
    title: 'A primary made by hand does not end at its slot',
    text: "The rows given under `primaries.by_hand`, marched from the port, end elsewhere than at the collector's slot. A tube forced into place is a spring that cracks its weld. Correct the rows, or the collector's place.",
  },
  'cradle/slot-shared': {
    exit: 2,
    title: 'Two primaries end at the same slot',
    text: 'Every primary needs a slot of its own at the collector. The rows of one of the two lead to the wrong place, or the slots are named wrongly.',
  },
  'cradle/lengths-apart': {
    exit: 2,
    title: 'Primaries made by hand differ in length',
    text: 'Equal primaries bring their waves back at the same engine speed. The rows given differ by more than the spread that the job allows.',
  },
  'cradle/length-not-asked': {
    exit: 2,
    title: 'A primary made by hand has not the length asked',
    text: "The length of a primary is that of its centre line from the flange's tube side to the tube's own end at the collector. The rows given are longer or shorter than the job asks.",
  },
} as const satisfies Record<string, Page>;
