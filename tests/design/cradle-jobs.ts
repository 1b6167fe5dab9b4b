import { jobFrom } from '../../src/job/index.js';
import type { Job } from '../../src/job/job.js';

/** An invented twin with routes by hand, over a level base plate; keys given replace whole sections. */
export function twinJob(sections: Record<string, unknown> = {}): Job {
  const { value, problems } = jobFrom(twinSections(sections));
  if (value === undefined) throw new Error(JSON.stringify(problems, null, 1));
  return value;
}

/** What its job file says. */
export const twinSections = (sections: Record<string, unknown> = {}): Record<string, unknown> => ({
  job: 'invented-twin',
  ports: { shape: { circle: { diameter: 36 } }, row: { count: 2, pitch: 500 } },
  studs: {
    thread: 'M8',
    beside_each_port: [
      [-33, 0],
      [33, 0],
    ],
  },
  flange: { thickness: 10 },
  tube: { od: 42.4, wall: 1.6 },
  primaries: { by_hand: { P1: turningRight, P2: turningRight } },
  tack_fixture: fixture([{ primary: 'P1', station: 60 }]),
  ...sections,
});

/** Out 120, a quarter turn to the right (clock -90 from up, about out), and 200 along. */
export const turningRight = [{ straight: 120 }, { clr: 63.6, angle: 90, clock: -90 }, { straight: 200 }];

/** Holders at the places given, over a base 60 mm below the tubes' axes. */
export const fixture = (
  at: readonly { primary: string; station: number }[],
  change: Record<string, unknown> = {},
  base: Record<string, unknown> = { at: [0, -60, 0], normal: [0, 1, 0] },
) => ({
  base,
  cradle: {
    width: 20,
    wall: 6,
    clearance: { straight: 0.3, bend: 0.6 },
    embrace: 170,
    strap: { width: 13, depth: 3 },
    foot: { thickness: 6, tab: 15, hole: 4.5 },
    at,
    ...change,
  },
  printer_bed: [220, 220, 250],
});
