import type { Page } from './page.js';

export const rackPages = {
  'rack/bug': {
    exit: 1,
    title: 'A fault of the program itself',
    text: 'The program reached a state that its author thought impossible while reading the rack. Nothing was written. Please report it with the rack file.',
  },
  'rack/empty': {
    exit: 2,
    title: 'The rack holds nothing',
    text: 'A rack lists what can be bought or lies on hand: mandrel bends with their centre-line radius, angle and legs, straights by the stick, and offcuts. Without any of these no tube can be made.',
  },
  'rack/tight-bend': {
    exit: 2,
    title: 'A bend on the rack is tighter than its tube',
    text: 'The inside of a bend runs at the centre-line radius less half the diameter. Where nothing is left of that, there is no such bend: the radius was most likely measured to the inside, or given in diameters instead of in mm.',
  },
  'rack/thick-wall': {
    exit: 2,
    title: 'The wall leaves no bore',
    text: 'Twice the wall must be less than the outside diameter, or no gas passes.',
  },
  'rack/leg-lost': {
    exit: 2,
    title: 'A leg is shorter than what is trimmed off it',
    text: 'A raw tube end is never square or clean, so `saw.raw_trim` is cut off it first. A leg no longer than that gives nothing to weld to, and counts as no leg.',
  },
  'rack/short-straight': {
    exit: 2,
    title: 'A straight on the rack is too short to use',
    text: 'Both raw ends are trimmed, and an insert must be long enough to be held and welded at both ends. What is left of this straight is shorter than that.',
  },
  'rack/other-tube': {
    exit: 2,
    title: "The rack's tube is not the job's",
    text: "Bends and straights must have the diameter, wall and material of the job's tube: a step in the bore upsets the gas, and unlike steels need another filler or do not weld at all. Name the rack of that tube, or correct one of the two.",
  },
} as const satisfies Record<string, Page>;
