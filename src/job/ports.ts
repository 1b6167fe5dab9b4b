import type { Frame } from '../base/frames.js';
import type { Vector } from '../base/vectors.js';

/*
 * Ports and studs of a job. Lengths mm, angles rad, places in the engine's frame (right, up, out).
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
