import { INCH } from '../../base/units.js';

/** How much room a hole leaves its stud: ISO 273 fine H12, medium H13, coarse H14. */
export type Fit = 'fine' | 'medium' | 'coarse';

/** A stud or bolt thread and what belongs to it. Lengths mm. */
export interface Thread {
  readonly name: string;
  /** Outside diameter of the thread. */
  readonly diameter: number;
  /** Clearance holes. */
  readonly holes: Readonly<Record<Fit, number>>;
  /** Width across the flats of its hexagon nut. */
  readonly acrossFlats: number;
  /** Across the corners of the nut (least of the standard), and its greatest height. */
  readonly acrossCorners: number;
  readonly nutHeight: number;
  /** Diameter of the cylinder that a socket needs round the stud. */
  readonly socket: number;
}

const metric = (
  diameter: number,
  [fine, medium, coarse]: readonly [number, number, number],
  nut: readonly [number, number, number],
  socket: number,
): Thread => ({
  name: `M${diameter}`,
  diameter,
  holes: { fine, medium, coarse },
  acrossFlats: nut[0],
  acrossCorners: nut[1],
  nutHeight: nut[2],
  socket,
});

/** Inch sizes are given as the drills of their holes: close, normal, loose. */
const inch = (
  name: string,
  diameter: number,
  drills: readonly [number, number, number],
  nut: readonly [number, number, number],
  socket: number,
): Thread => ({
  name,
  diameter: diameter * INCH,
  holes: { fine: drills[0] * INCH, medium: drills[1] * INCH, coarse: drills[2] * INCH },
  acrossFlats: nut[0] * INCH,
  acrossCorners: nut[1] * INCH,
  nutHeight: nut[2] * INCH,
  socket,
});

/**
 * The threads that header studs come in.
 *
 * Sources: metric holes ISO 273 (M6 to M12 on two reference pages that agree; M5 and M7 from memory).
 * Inch holes ASME B18.2.8, drills (1/4, 5/16, 3/8: Machinery's Handbook 31, p. 1741; 7/16 and 1/2 from
 * memory). Nuts ISO 4032, across corners the standard's least (from memory, an open fastener data set rounds
 * it up), inch nuts ASME B18.2.2 (from memory). Socket room M6 to M12: column G of a table of head clearances
 * whose sketch was not seen, marked conservative by its author, + 3 mm; the others by proportion to the flats.
 */
const threads: readonly Thread[] = [
  metric(5, [5.3, 5.5, 5.8], [8, 8.79, 4.7], 17),
  metric(6, [6.4, 6.6, 7], [10, 11.05, 5.2], 20),
  metric(7, [7.4, 7.6, 8], [11, 12.12, 6.5], 22),
  metric(8, [8.4, 9, 10], [13, 14.38, 6.8], 25),
  metric(10, [10.5, 11, 12], [16, 17.77, 8.4], 30),
  metric(12, [13, 13.5, 14.5], [18, 20.03, 10.8], 33),
  inch('1/4', 1 / 4, [17 / 64, 9 / 32, 19 / 64], [7 / 16, 0.488, 0.226], 21),
  inch('5/16', 5 / 16, [21 / 64, 11 / 32, 23 / 64], [1 / 2, 0.557, 0.273], 25),
  inch('3/8', 3 / 8, [25 / 64, 13 / 32, 27 / 64], [9 / 16, 0.628, 0.337], 28),
  inch('7/16', 7 / 16, [29 / 64, 15 / 32, 31 / 64], [11 / 16, 0.768, 0.385], 32),
  inch('1/2', 1 / 2, [17 / 32, 9 / 16, 39 / 64], [3 / 4, 0.84, 0.448], 35),
];

export const threadNames: readonly string[] = threads.map((thread) => thread.name);

/** A thread by its name (`M8`, `m8`, `M8x1.25`, `5/16`, `5/16-18`, `3/8"`), or undefined. */
export function threadOf(name: string): Thread | undefined {
  const asked = name
    .trim()
    .toUpperCase()
    .replace(/(["\s]|IN$|UNC$|UNF$)/g, '');
  const size = /^(M\d+)(?:X[\d.]+)?$/.exec(asked)?.[1] ?? /^(\d+\/\d+)(?:-\d+)?$/.exec(asked)?.[1];
  return threads.find((thread) => thread.name === size);
}
