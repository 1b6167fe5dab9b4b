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
  'route/would-free': {
    exit: 3,
    title: 'A change was tried, and routes were found with it',
    text: 'Where there is no route, the program tries small changes one by one: a keep-out smaller or less clear, the collector moved or turned, a longer or shorter length, a shorter straight at an end. Those told let a quick search through; a smaller change may do as well, unless the message says that it is proved too little. Only you know what the car allows: never shrink a keep-out that is as large as it is drawn, and never go under the clearance that heat, movement and your local rules ask for.',
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
  'route/too-near': {
    exit: 2,
    title: 'A primary passes something nearer than the job asks',
    text: 'Routes frozen in routes.yaml are measured anew with every check and build, by the same marches that proved them, and so are rows given by hand. Between freezing and now a keep-out, a clearance, a stud or a row was changed. For frozen routes this is an error, for rows by hand a warning: they are your own word. Route again, move what stands there, or ask less clearance of it where you know that less will do.',
  },
  'route/breaks-limit': {
    exit: 2,
    title: 'A primary breaks a limit of the job',
    text: 'The job says how long a stub, a straight between bends and the last straight are at least, and how far a bend may turn. A row of this primary is outside of that: changed by hand, or the limit was changed after the routes were frozen.',
  },
  'route/by-hand-stays': {
    exit: 3,
    title: 'The job gives all its routes by hand',
    text: 'A build takes rows by hand before frozen ones. Where every primary has rows in primaries.by_hand, the routes just found are frozen beside the job but not built. Take out the rows of those primaries that the program is to route.',
  },
  'route/nothing-frozen': {
    exit: 2,
    title: 'A primary is to be kept, but no route of it is frozen',
    text: 'primaries.built and --only keep tubes as they were frozen in routes.yaml beside the job. That file is missing, or has no such primary. Put it back, or give the rows of what stands by hand (primaries.by_hand).',
  },
  'route/built-off-tube': {
    exit: 2,
    title: 'A primary is said to be built up to a place that is not on it',
    text: 'up_to is the station of a weld along the centre line, in mm from the tube side of the flange, as the cut list tells it (welds, at). It must lie on the frozen route of that primary.',
  },
  'route/nothing-open': {
    exit: 2,
    title: 'There is no primary left to be routed',
    text: 'Every primary stands already (primaries.built), is given by hand, or is left as it is (--only names the others).',
  },
  'route/off-job': {
    exit: 2,
    title: 'The route record does not belong to the job as it is now',
    text: 'The record was frozen when the ports, the collector or the length stood elsewhere. Tubes cut from it would not meet head or collector. Route again, or set the job back.',
  },
} as const satisfies Record<string, Page>;
