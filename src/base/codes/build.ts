import type { Page } from './page.js';

export const buildPages = {
  'build/no-file': {
    exit: 2,
    title: 'A file that was named is not there',
    text: 'The job file or script given on the command line could not be opened. Paths count from the folder you stand in. `tackwright new my-header` makes a first job to edit.',
  },
  'build/nothing-to-make': {
    exit: 2,
    title: 'The job asks for nothing that can be made',
    text: 'A flange needs ports, studs and a flange section; a merge plate needs a collector and a merge_plate section; cradles need primaries and tack_fixture. The job has none of these sets whole, or --only names a part whose sections are missing.',
  },
  'build/unknown-choice': {
    exit: 2,
    title: 'A part or a format that does not exist',
    text: '--only takes part names, --formats takes file kinds, several with commas between. The message lists those there are.',
  },
  'build/bad-script': {
    exit: 2,
    title: 'A script that cannot be run',
    text: 'A parametric script is a TypeScript or JavaScript file that imports from `tackwright` and ends with `export default script({ about, dimensions, draw })`. See scripts/port-flange.ts for a short one. The message names what was found instead, or the line where the script itself failed.',
  },
  'build/bad-dimension': {
    exit: 2,
    title: 'A dimension given to a script is out of its range',
    text: 'Each dimension of a script has a unit and a range; `tackwright make SCRIPT --help` lists them. Lengths may carry their own unit: 94, 94mm, "3-5/8 in".',
  },
  'build/exists': {
    exit: 2,
    title: 'A new job or rack would overwrite something',
    text: '`tackwright new` writes only into a folder that is not there yet, and `build --rack-after` only a file that is not there yet, so that no work of yours is lost. Choose another name, or remove what lies there yourself.',
  },
  'build/no-cut-list': {
    exit: 2,
    title: 'There is no cut list to reckon the rack from',
    text: '`build --rack-after FILE` writes what the rack holds once the cut list is sawn. That needs a job with a rack and with routes, by hand or found by `tackwright route`, and a build that makes the cut list.',
  },
} as const satisfies Record<string, Page>;
