import type { Point } from '../base/points.js';

/*
 * The flat plates of a job: flange, strongback, merge plate. Lengths mm.
 */

export type CutBy = 'plasma' | 'laser' | 'waterjet' | 'saw and drill';

export interface FlangeSpec {
  readonly thickness: number;
  readonly material: string;
  /** Metal round a port's opening and the tube's end. */
  readonly edge: number;
  /** Metal past a stud hole is boss - hole / 2. */
  readonly boss: number;
  /** The bar along the ports; 0 leaves it out. */
  readonly webHeight: number;
  /** Radius of concave corners in the outline. */
  readonly fillet: number;
  readonly leastWeb: number;
  readonly madeAs: 'one piece' | 'each' | 'pairs';
  readonly cutBy: CutBy;
  /** How the plate is opened for the gas: `port` leaves the head's outline, `bore` the tube's, `blend` what both have in common. `auto` picks. */
  readonly opening: 'auto' | 'port' | 'bore' | 'blend';
  /** Added to the port's outline each side. */
  readonly openingMargin: number;
  /** Gasket land left all round an opening. */
  readonly land: number;
  /** Cut small holes as well instead of marking them for the drill (the user's own decision). */
  readonly cutSmallHoles: boolean;
  /** Slots cut up into the web between neighbouring ports. */
  readonly relief: { readonly width: number; readonly leave: number } | undefined;
  /** Etched marks: port numbers, clock-zero ticks, TUBE SIDE, the job's name. */
  readonly etch: boolean;
  /** A nick in the outline that shows which way round, for those who cannot etch. */
  readonly nick: boolean;
  /** Holes for dowels, in the face's own right and up from port 1. */
  readonly dowels: readonly { readonly at: Point; readonly hole: number; readonly path: string }[];
}

export interface StrongbackSpec {
  readonly thickness: number;
  readonly material: string;
  /** How far its outline stands outside the flange's. */
  readonly margin: number;
  readonly cutBy: CutBy;
}

export interface MergePlateSpec {
  readonly thickness: number;
  readonly material: string;
  readonly cutBy: CutBy;
  /** Where the plate's upstream face stands on the collector's axis: mm upstream of the tubes' ends. */
  readonly upstream: number;
  /** Added to the tube's diameter for the holes. */
  readonly gap: number;
  readonly outline: 'hugging' | 'round';
  /** Metal outside the holes. */
  readonly edge: number;
  readonly fillet: number;
  readonly leastWeb: number;
  /** A tube in the middle of the ring. */
  readonly centreTube: number | undefined;
  /** Diameter of a hole in the star between the tubes. */
  readonly starHole: number | undefined;
  readonly boltRing:
    | {
        readonly count: number;
        readonly hole: number;
        readonly circle: number | undefined;
        readonly thread: string | undefined;
      }
    | undefined;
  readonly etch: boolean;
}
