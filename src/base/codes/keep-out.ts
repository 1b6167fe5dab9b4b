import type { Page } from './page.js';

export const keepOutPages = {
  'keep-out/no-file': {
    exit: 2,
    title: "A keep-out's file is not there",
    text: 'The job names an STL or STEP file to keep clear of, and there is none of that name beside the job, or it may not be read. Copy it there, correct its name, or take the keep-out out of the job until you have it.',
  },
  'keep-out/unreadable': {
    exit: 2,
    title: "A keep-out's file cannot be read",
    text: 'The file is cut short, is of another kind than its key says (mesh: takes STL, binary or text; step: takes STEP, AP203, AP214 or AP242), holds nothing, or has corners that are no numbers. What cannot be read whole cannot be kept clear of, so the search does not begin.',
  },
  'keep-out/too-fine': {
    exit: 2,
    title: 'A mesh has more triangles than are of use',
    text: 'Tubes are kept millimetres clear, and a phone scan is no truer than that. Thin the mesh out in the program that made it; edges of 3 to 5 mm keep all that matters.',
  },
  'keep-out/unit': {
    exit: 2,
    title: 'The size of a file hints at another unit',
    text: 'An STL file does not tell its unit. Scan programs often write metres, some CAD inches. Where the mesh comes out as small as a nut or larger than a lorry, `file_unit:` (mm, cm, m or in) is most likely missing or wrong. Check a length that you know.',
  },
  'keep-out/far-off': {
    exit: 2,
    title: 'A keep-out from a file lies out of reach of any tube',
    text: "A scan has a frame of its own. For the job it must be put into the engine's: from the centre of port 1, right, up and out. Name three or more points that you find both in the scan and on the engine (stud holes, bolt heads, a corner) under `matched:`, each with its numbers `in_file:` and where it stands, `at:`. Without that, the search keeps clear of something that is elsewhere.",
  },
  'keep-out/open': {
    exit: 2,
    title: 'A mesh is not closed',
    text: 'A scan sees one side of things and leaves holes. Such a mesh is kept clear of as a sheet without thickness: tubes stay clear of both of its sides, but nothing counts as inside, and where the scan has a hole, there is nothing to keep clear of. Look at the holes; put a box or capsule where something is missing.',
  },
  'keep-out/matched': {
    exit: 2,
    title: 'The matched points of a file do not fit',
    text: 'Points given in the file and on the engine must lie at the same distances from each other. Three or more are needed, not in one line, spread as wide as the thing itself. Where they differ by a factor, the unit is wrong (`file_unit:`); where one is off, it was picked or measured wrongly, or two were swapped. Wherever they do not fit, the whole file stands askew by about as much, so ask that much more clearance.',
  },
  'keep-out/changed': {
    exit: 2,
    title: 'A keep-out has changed since the routes were frozen',
    text: 'The routes were found clear of another file than the one that lies there now. Nothing says that they are clear of this one. Route again, or set the file back.',
  },
} as const satisfies Record<string, Page>;
