import type { Page } from './page.js';

export const solidPages = {
  'solid/size': {
    exit: 2,
    title: 'A figure that no solid has',
    text: 'A thickness, diameter or depth is zero, negative or not a number, or a pocket is as deep as the plate is thick. The message names the figure and its limits.',
  },
  'solid/kernel': {
    exit: 3,
    title: 'The CAD kernel could not make the part',
    text: 'The kernel stopped in the middle of an operation. The message names the part, the operation, its sizes and the likely cure. Most often two edges touch, cross or come closer than a hair, or a radius is larger than the edge it rounds: move or change one of them by a millimetre.',
  },
  'solid/open-contour': {
    exit: 1,
    title: 'A contour does not close',
    text: 'Every outline, opening and pocket must end where it starts. The program makes them closed; if you drew the shape yourself, close it, otherwise please report it with the job file.',
  },
  'solid/kinked-tube': {
    exit: 1,
    title: 'The pieces of a tube do not follow on',
    text: 'Each straight and bend of a tube must start where the one before it ends, and in the same direction. The program marches them so; please report it with the job file.',
  },
  'solid/count': {
    exit: 3,
    title: 'The part fell apart or vanished',
    text: 'A part must be one solid. An opening that crosses the outline, or openings that meet, cut it in two; a cut that is larger than the part leaves nothing. Move the edges named in the message apart.',
  },
  'solid/unsound': {
    exit: 3,
    title: 'The faces of the part do not close',
    text: 'The kernel made a body whose faces cross or leave gaps. Such a file fails in the slicer or the CAM. Most often two edges touch at one point or run within a hair of each other: move one of them by a millimetre.',
  },
  'solid/volume': {
    exit: 3,
    title: 'The volume is not what the figures say',
    text: 'Every solid is weighed against a second method that does not use the kernel. A difference means that openings overlap one another or the outline, or that the kernel failed without saying so. If the figures of the part look right, please report it with the job file.',
  },
  'solid/bounds': {
    exit: 3,
    title: 'The part is not as large as its figures say',
    text: 'The box that just holds the solid differs from the one worked out from the figures. If they look right, please report it with the job file.',
  },
  'solid/cradle-limits': {
    exit: 3,
    title: 'A cradle that cannot be made so',
    text: 'The tube may climb at most 45 degrees in its saddle, the saddle reaches 40 to 180 degrees round it, and there must be plastic under and beside the saddle, beside the strap and round the screw holes. The message names the figure and its limit.',
  },
  'solid/saddle': {
    exit: 1,
    title: 'The saddle does not follow the tube',
    text: "The seat of every cradle is measured against the tube's own surface: the same axis, larger by the clearance, and open upward so that the tube lifts out. Nothing was written. Please report it with the job file.",
  },
  'solid/mesh': {
    exit: 1,
    title: 'The mesh of a part leaks',
    text: 'The triangles of a print must close without gaps, or the slicer fills or drops walls by guess. Nothing was written. Please report it with the job file.',
  },
  'solid/step-write': {
    exit: 1,
    title: 'The STEP file could not be written',
    text: 'The kernel did not turn the solids into a STEP file. Please report it with the job file.',
  },
  'solid/step-read': {
    exit: 2,
    title: 'The STEP file cannot be read',
    text: 'The file is cut short, is not STEP (ISO 10303-21), or holds surfaces only and no solid. Open it in the CAD it came from and export it again as a solid, AP214 or AP242.',
  },
} as const satisfies Record<string, Page>;
