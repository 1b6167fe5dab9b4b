import type { Problem } from '../base/problems.js';
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

/** The shortest line that gives a section; numbers of an invented header, in units that stand for themselves. */
const firstLines: Readonly<Record<string, string>> = {
  rack: '`rack: rack.yaml`',
  length: '`length: { between: [600mm, 700mm], spread: 3mm }`',
  tube: '`tube: { od: 42.4mm, wall: 1.6mm, material: "304" }`',
  collector: '`collector: { kind: merge, joint: slip, at: [150mm, -400mm, 180mm], flow: [0.2, -1, 0.15] }`',
  ports: '`ports:`, as `tackwright new` writes it',
};
