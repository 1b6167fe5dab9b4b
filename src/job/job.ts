import type { Frame } from '../base/frames.js';
import type { Vector } from '../base/vectors.js';
import type { Point } from '../base/points.js';
import type { Motion } from '../geom/rigid-fit.js';
import type { ShopSpec } from './shop.js';

/*
 * A job as the rest of the program sees it: checked, complete with defaults, frozen.
 * Lengths mm, angles rad, places in the engine's frame (right, up, out) unless a line says otherwise.
 * Optional sections are those a job may leave out; a command says which of them it needs.
 */

/** The opening in the head, drawn about its own centre, `turned` counter-clockwise as seen from the tube side. */
export type PortShape = { readonly turned: number } & (
  | { readonly kind: 'circle'; readonly diameter: number }
  | { readonly kind: 'obround'; readonly length: number; readonly width: number }
  | { readonly kind: 'ellipse'; readonly width: number; readonly height: number }
  | {
      readonly kind: 'rounded rectangle';
      readonly width: number;
      readonly height: number;
      readonly corner: number;
    }
  | {
      readonly kind: 'd shape';
      readonly width: number;
      readonly height: number;
      /** The straight side; the side across from it is round. */
      readonly flat: 'top' | 'bottom' | 'left' | 'right';
      /** Radius of the two corners at the flat. */
      readonly corner: number;
    }
);

export interface Port {
  /** P1, P2, ...: its cylinder's number. */
  readonly id: string;
  /** Centre of the opening on the exhaust face. */
  readonly at: Vector;
  /** Unit direction in which the gas leaves. */
  readonly direction: Vector;
  /** The face it stands on, origin at the port's centre. Ports of one row share right, up and out. */
  readonly face: Frame;
  /** Absent in a job that is only routed. */
  readonly shape: PortShape | undefined;
}

export interface Stud {
  /** Its place in the job, for messages: `studs.at.0`, `studs.beside_each_port.1`. */
  readonly path: string;
  readonly at: Vector;
  /** The face it stands on; its axis is the face's `out`. */
  readonly face: Frame;
  /** The port it belongs to, where the job gives it beside a port. */
  readonly port: string | undefined;
  /** Diameter of its hole in the flange. */
  readonly hole: number;
  /** Its own thread, or that of all; absent where only holes are given. */
  readonly thread: string | undefined;
  /** How much longer than wide the hole is made (0: round), along the row, so that a hot flange can grow. */
  readonly slotted: number;
}

export interface Studs {
  /** As the job names it: M8, 5/16. Absent where only a hole is given. */
  readonly thread: string | undefined;
  readonly fit: 'fine' | 'medium' | 'coarse';
  /** Diameter of an ordinary hole. */
  readonly hole: number;
  readonly all: readonly Stud[];
}

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
  /** How the plate is opened for the gas: see parts in DEVELOPERS.md. `auto` picks. */
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

export interface Tube {
  readonly od: number;
  readonly wall: number;
  readonly material: string;
}

/** How the tube meets the flange. */
export type FlangeJoint =
  | { readonly kind: 'butt' }
  | { readonly kind: 'socket'; readonly depth: number; readonly gap: number }
  /** Through the plate, its end `recess` short of the gasket face; gap on the diameter. */
  | { readonly kind: 'through'; readonly recess: number; readonly gap: number };

/** One row of a route: a straight, or a bend. Straights and bends alternate, straights first and last. */
export type RouteRow =
  { readonly straight: number } | { readonly clr: number; readonly angle: number; readonly clock: number };

/** What a piece measures that came out otherwise than planned, mm and rad; undefined: as planned. */
export interface AsCut {
  readonly angle: number | undefined;
  readonly legUp: number | undefined;
  readonly legDown: number | undefined;
  readonly length: number | undefined;
}

/** How far a primary is built that is not built whole: up to a weld. */
export interface BuiltTo {
  /** The weld's station along the centre line, from the flange's tube side. */
  readonly station: number;
  /** Where its open end was measured, and the way it points (unit); undefined: as designed. */
  readonly end: { readonly at: Vector; readonly direction: Vector } | undefined;
}

export interface PrimariesSpec {
  readonly stub: number;
  readonly between: number;
  readonly lastStraight: number;
  readonly jointAtFlange: FlangeJoint;
  readonly leastAngle: number;
  readonly largestAngle: number;
  /** Primaries that stand already, by primary: whole, or up to a weld. */
  readonly built: Readonly<Record<string, 'whole' | BuiltTo>>;
  /** Routes by hand, by primary. */
  readonly byHand: Readonly<Record<string, readonly RouteRow[]>>;
}

export interface CollectorSpec {
  readonly kind: 'merge' | 'plate and cone';
  readonly joint: 'slip' | 'welded';
  /** On its axis, level with the primaries' ends. */
  readonly at: Vector;
  /** Unit direction of the gas. */
  readonly flow: Vector;
  readonly halfAngle: number;
  /** Of S1 from the collector's clocking zero; absent: free. */
  readonly clocking: number | undefined;
  readonly slotGap: number;
  readonly slip: { readonly depth: number; readonly gap: number; readonly sleeveWall: number };
  readonly body: { readonly length: number; readonly diameter: number | undefined; readonly clear: number };
  readonly outlet: { readonly od: number } | undefined;
  readonly mayMove: { readonly along: number; readonly across: number; readonly tilt: number };
  readonly slots: 'shortest' | 'firing' | readonly string[];
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

export type KeepOutShape =
  | { readonly kind: 'box'; readonly from: Vector; readonly to: Vector }
  | {
      readonly kind: 'cylinder' | 'capsule';
      readonly from: Vector;
      readonly to: Vector;
      readonly diameter: number;
    }
  /** Solid on the side away from the normal. */
  | { readonly kind: 'plane'; readonly at: Vector; readonly normal: Vector }
  | {
      readonly kind: 'mesh' | 'step';
      /** Beside the job. */
      readonly file: string;
      /** Of the file's numbers, mm; 1 for STEP, which is read as mm. */
      readonly unit: number;
      /** From the file's frame, in mm, into the engine's. */
      readonly motion: Motion;
    };

export interface KeepOut {
  readonly name: string;
  readonly path: string;
  readonly shape: KeepOutShape;
  readonly clear: number;
  /** What it is, where the job says so: steering, brake line, ... */
  readonly what: string | undefined;
  readonly fixedTo: 'engine' | 'body';
  readonly headOf: readonly string[];
  /** Which way it is drawn out when it is taken off for service. */
  readonly comesOut: 'left' | 'right' | 'up' | 'down' | 'out' | undefined;
}

/** What fitting and taking off the header, and its growth when hot, are judged by. */
export interface ServiceSpec {
  /** How far the studs stand out of the head's face. */
  readonly studsStand: number;
  /** Kept between what is moved and what is in place. */
  readonly margin: number;
  /** How much further than its joint, stud or own size a thing is drawn. */
  readonly beyond: number;
  /** Mean temperatures of the metal when hot, C; `apart`: how much cooler one primary may run than another. */
  readonly hot: {
    readonly primaries: number;
    readonly apart: number;
    readonly head: number;
    readonly collector: number;
  };
}

/** One printed holder asked for: which primary, how far along its centre line from its start. */
export interface CradlePlace {
  readonly primary: string;
  readonly station: number;
  readonly path: string;
}

export interface TackFixtureSpec {
  readonly cradle: {
    /** Along the tube. */
    readonly width: number;
    /** Metal (plastic) left under and beside the tube. */
    readonly wall: number;
    readonly clearanceStraight: number;
    readonly clearanceBend: number;
    /** How far round the tube the saddle reaches, rad, at most pi. */
    readonly embrace: number;
    readonly strap: { readonly width: number; readonly depth: number } | undefined;
    readonly foot: { readonly thickness: number; readonly tab: number; readonly hole: number };
    readonly engrave: number;
    /** `auto`: the program chooses. */
    readonly at: 'auto' | readonly CradlePlace[];
  };
  /** The plane the cradles stand on. */
  readonly base: { readonly at: Vector; readonly normal: Vector };
  readonly printerBed: readonly [number, number, number];
}

/** A value the job did not give, and what was taken instead. */
export interface DefaultTaken {
  readonly path: string;
  /** As shown to the user: "10 mm", "12 deg", "plasma". */
  readonly value: string;
}

/** A value that the job says is only a guess. */
export interface Guess {
  readonly path: string;
  readonly value: string;
}

export interface Job {
  readonly name: string;
  /** The unit that bare numbers were read in. Everything below is mm. */
  readonly unit: 'mm' | 'in';
  readonly engine:
    | {
        readonly cylinders: number;
        readonly firingOrder: readonly number[] | undefined;
        /** cm3 */
        readonly capacity: number | undefined;
        /** rev/min */
        readonly tunedFor: number | undefined;
        /** rad of crank before bottom dead centre */
        readonly exhaustOpens: number | undefined;
      }
    | undefined;
  readonly ports: readonly Port[];
  readonly measuredOn: 'head' | 'gasket' | 'flange';
  readonly studs: Studs | undefined;
  readonly flange: FlangeSpec | undefined;
  readonly strongback: StrongbackSpec | undefined;
  readonly tube: Tube | undefined;
  readonly primaries: PrimariesSpec | undefined;
  readonly collector: CollectorSpec | undefined;
  readonly mergePlate: MergePlateSpec | undefined;
  readonly length: { readonly from: number; readonly to: number; readonly spread: number } | undefined;
  readonly rack: string | undefined;
  /** What became of pieces of the cut list, by their names there. */
  readonly asCut: Readonly<Record<string, 'good' | 'scrap' | AsCut>>;
  readonly keepOuts: readonly KeepOut[];
  readonly clear: { readonly tubeToTube: number; readonly nearSlots: number; readonly keepOut: number };
  readonly wrench: { readonly tool: 'socket' | 'spanner' };
  readonly service: ServiceSpec;
  readonly shop: ShopSpec;
  readonly tackFixture: TackFixtureSpec | undefined;
  readonly defaults: readonly DefaultTaken[];
  readonly guesses: readonly Guess[];
}
