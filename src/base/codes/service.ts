import type { Page } from './page.js';

export const servicePages = {
  'service/collector-stays': {
    exit: 3,
    title: 'The collector cannot be drawn off its slip joints',
    text: 'A slip-on collector is drawn along its own flow by the slip depth and a little more before it is free. Something stands behind it. Move that, make the slip joints shorter, or take the header off in one with its collector, undone at the outlet, where the message says that this goes.',
  },
  'service/header-stays': {
    exit: 3,
    title: 'The header cannot be drawn off its studs',
    text: 'The header is drawn square off the face by as far as the studs stand out, with everything else in place that has not come off before. The message names what it runs into and how far it gets. Move that, say how it comes out (`comes_out: left`), or use studs that can be screwed out: then set `studs.stands` to what is left.',
  },
  'service/no-tool-room': {
    exit: 3,
    title: 'No room for the tool on a nut, or for the nut to come off',
    text: 'Each nut needs room for its socket, or the ring of its spanner, along the stud, and must itself come off the stud. Something stands in that room. What cannot be reached with one tool may be with the other: `wrench.tool`.',
  },
  'service/faces-joined': {
    exit: 3,
    title: 'One stiff header stands on faces that look different ways',
    text: 'A plate on studs comes off square to its own face only. Plates that are welded into one header and face different ways hold each other: none can move. Join them at the collector with slip joints, or use studs that are screwed out first.',
  },
  'service/neighbour-stays': {
    exit: 3,
    title: 'A neighbour does not come out the way the job says',
    text: 'The job says which way a neighbour is drawn out (`comes_out`). It was moved that way by its own size, after everything that could be taken off before it, and ran into something that stays.',
  },
  'service/not-looked-at': {
    exit: 3,
    title: 'A keep-out was left out of the look at fitting',
    text: 'A keep-out that is given as a file is not looked at here where its shape was not at hand, and one that comes out must be a box, a cylinder or a capsule to be moved. Check it on the engine.',
  },
  'service/short-engagement': {
    exit: 3,
    title: 'Little of the slip joint stays together when the tubes grow',
    text: 'Hot tubes grow into their sleeves, so a cold gap is left between their ends and the stop: what the ends grow, and 3 mm. What is left of the slip depth should be half the tube diameter at least, or the joint rattles and leaks. The growth is an estimate from assumed temperatures (`service.hot`).',
  },
} as const satisfies Record<string, Page>;
