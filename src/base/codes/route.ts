import type { Page } from './page.js';

export const routePages = {
  'route/missing-section': {
    exit: 2,
    title: 'The job lacks what a route is found from',
    text: 'To route its primaries a job needs ports, tube, primaries, collector, length, and a rack file that lists the bends and straights to be had.',
  },
  'route/impossible': {
    exit: 3,
    title: 'There is no route, and that is proved',
    text: 'The program did not merely fail to find one: it can show that none exists, because a first or last straight ends inside a keep-out, or because even the shortest way is longer than the length allowed. The message names the port, the slot and what stands in the way.',
  },
  'route/not-found': {
    exit: 3,
    title: 'No route was found',
    text: 'The search ended without an answer. That is no proof that there is none: give it more effort (--effort thorough) or another seed, let the collector turn (leave out its clocking), widen the length, or ask for a little less clearance.',
  },
  'route/stopped': {
    exit: 3,
    title: 'The search was stopped early',
    text: 'The best route found until then was kept. Run it again to its end for fewer welds or a shorter tube.',
  },
  'route/head-not-cleared': {
    exit: 2,
    title: 'A port points into its own head',
    text: "The port's axis runs on inside the keep-out that is its head. The direction is most likely measured wrong, or the head's box drawn too far out.",
  },
  'route/file-keep-out': {
    exit: 3,
    title: 'A keep-out given as a file cannot be routed round yet',
    text: 'The search measures distances to boxes, cylinders, capsules and planes. A mesh or STEP keep-out is read into the job but not yet searched round, and leaving it out in silence would send tubes through it. Stand simple shapes in its place.',
  },
  'route/not-routed': {
    exit: 2,
    title: 'The job can be routed and is not yet',
    text: 'The job has all that a route is found from, but neither rows by hand nor a routes.yaml beside it. The flange, the merge plate and the strongback need no routes and are made; cradles, primaries and the cut list wait for `tackwright route`.',
  },
  'route/bad-record': {
    exit: 2,
    title: 'The route record cannot be read',
    text: 'A route record lists for every primary its start, its rows and its end. Rows alternate: a straight, a bend, a straight, ..., beginning and ending with a straight, which may be 0 long. Angles are over 0, all numbers finite.',
  },
  'route/off-job': {
    exit: 2,
    title: 'The route record does not belong to the job as it is now',
    text: 'The record was frozen when the ports, the collector or the length stood elsewhere. Tubes cut from it would not meet head or collector. Route again, or set the job back.',
  },
} as const satisfies Record<string, Page>;
