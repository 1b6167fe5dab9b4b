import type { Problem } from '../base/problems.js';
import type { Rack } from '../job/index.js';
import type { Job } from '../job/job.js';

/** The sections of a routable job that this one does not give. */
export const missingOf = (job: Job, hasRack: boolean): readonly string[] => [
  ...(job.ports.length > 0 ? [] : ['ports']),
  ...(['tube', 'collector', 'length'] as const).filter((section) => job[section] === undefined),
  ...(hasRack ? [] : ['rack']),
];

/** Told for the sections a route is found from: what is missing, and a line of each to begin with. */
export const lacking = (file: string, sections: readonly string[]): Problem => ({
  code: 'route/missing-section',
  severity: 'error',
  what: `the job does not give ${sections.join(', ')}`,
  why: 'a route runs from a port to a slot of the collector, of a length, from bends on the rack',
  fix: `write ${sections.map((section) => firstLines[section] ?? `${section}: ...`).join(' and ')}, with your numbers`,
  place: { file },
});

/** Told of a rack without a bend to route with. */
export const nothingToBend = (rack: Rack | undefined): readonly Problem[] =>
  rack === undefined || rack.bends.some(({ quantity }) => quantity > 0)
    ? []
    : [
        {
          code: 'rack/empty',
          severity: 'error',
          what: `the rack has ${rack.bends.length === 0 ? 'no bends' : '0 of every bend'}`,
          why: 'a route is laid from bends that can be had',
          fix: 'list 1 or more under bends: { clr: 63.6mm, angle: 180, legs: [100mm, 100mm], price: 17 }, with your numbers',
          place: { file: rack.file ?? '', path: 'bends' },
        },
      ];

/** The shortest line that gives a section; numbers of an invented header, in units that stand for themselves. */
const firstLines: Readonly<Record<string, string>> = {
  rack: '`rack: rack.yaml`',
  length: '`length: { between: [600mm, 700mm], spread: 3mm }`',
  tube: '`tube: { od: 42.4mm, wall: 1.6mm, material: "304" }`',
  collector: '`collector: { kind: merge, joint: slip, at: [150mm, -400mm, 180mm], flow: [0.2, -1, 0.15] }`',
  ports: '`ports:`, as `tackwright new` writes it',
};
