import { degrees } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { plus } from '../../base/points.js';
import type { Vector } from '../../base/vectors.js';
import { lengthOf, pointAt } from '../../geom/arcs.js';
import { chordsOf } from '../../geom/chords.js';
import { difference, intersection } from '../../geom/combine.js';
import { areaOf, distanceTo, isInside, movedLoop } from '../../geom/loops.js';
import { shadowOf } from '../../geom/shadow.js';
import type { Loop, Stroke } from '../../geom/segments.js';
import type { FlangeJoint, FlangeSpec, PortShape, Tube } from '../../job/job.js';
import { portLoop } from '../../job/port-loop.js';
import type { Opening, Pocket } from '../parts.js';
import type { PlatePort } from './plan.js';

/** Everything that one port does to the plate. */
export interface PortOpening {
  readonly of: PlatePort;
  readonly kind: 'port' | 'bore' | 'blend' | 'through';
  readonly opening: Opening;
  readonly pocket: Pocket | undefined;
  /** The head's port as it is, without the margin. */
  readonly port: Loop;
  /** The tube's outside where it meets the plate's tube side; undefined without a tube. */
  readonly tubeEnd: Loop | undefined;
  /** The tube's inside on the plane where its end stands. */
  readonly bore: Loop | undefined;
  /** Outlines to grind to, etched where they lie on metal. */
  readonly grind: readonly Stroke[];
  /** Whether the opening is known to lie within the tube's bore, so that its end stands on metal all round. */
  readonly withinBore: boolean;
  /** Area of the port that the plate covers, mm2, and the greatest step into the flow there, mm. */
  readonly covered: { readonly area: number; readonly step: number };
}

/**
 * Opens the plate for its ports. A tube set through the plate takes the shadow of the leaning tube through
 * the thickness. Otherwise the opening is the port (grown by its margin), the tube's bore, or the part
 * common to both, to be ground out afterwards; `auto` takes the port where the tube's end then stands on
 * metal all round, and the common part where it would not.
 * Equal ports are worked out once and moved to their places.
 */
export function openPorts(
  ports: readonly PlatePort[],
  flange: FlangeSpec,
  tube: Tube | undefined,
  joint: FlangeJoint,
): readonly PortOpening[] {
  const known = new Map<string, Pattern>();
  return ports.map((of) => {
    const shape = of.port.shape;
    if (shape === undefined) throw new Error(`${of.port.id} has no shape`);
    const key = JSON.stringify([shape, of.turn, of.direction]);
    const pattern = known.get(key) ?? patternOf(shape, of, flange, tube, joint);
    known.set(key, pattern);
    return movedTo(of, pattern);
  });
}

/** A port's opening drawn about its own centre. */
interface Pattern extends Omit<PortOpening, 'of' | 'opening' | 'pocket'> {
  readonly loop: Loop;
  readonly pocket: { readonly loop: Loop; readonly depth: number } | undefined;
}

function patternOf(
  shape: PortShape,
  { turn, direction }: PlatePort,
  flange: FlangeSpec,
  tube: Tube | undefined,
  joint: FlangeJoint,
): Pattern {
  const portGrown = (share: number): Loop =>
    movedLoop(portLoop(shape, share * flange.openingMargin), turn, [0, 0]);
  const port = portGrown(0);
  const opened = (kind: PortOpening['kind'], loop: Loop): Pattern => ({
    kind,
    port,
    loop,
    pocket: undefined,
    tubeEnd: undefined,
    bore: undefined,
    withinBore: false,
    grind: [],
    covered: coveredBy(port, loop),
  });
  if (tube === undefined) return opened('port', portGrown(1));
  const t = flange.thickness;
  // The tube's axis goes through the port's point moved square off the face by the thickness.
  const slab = (diameter: number, from: number, to: number): Loop =>
    shadowOf({ at: [0, 0], zAt: t, direction, diameter, from, to }, { side: 'never inside' }).loop;
  const tubeEnd = slab(tube.od, t, t);
  if (joint.kind === 'through') return { ...opened('through', slab(tube.od + joint.gap, 0, t)), tubeEnd };
  const floor = joint.kind === 'socket' ? t - joint.depth : t;
  const bore = slab(tube.od - 2 * tube.wall, floor, floor);
  const pocket =
    joint.kind === 'socket' ? { loop: slab(tube.od + joint.gap, floor, t), depth: joint.depth } : undefined;
  const { kind, loop, withinBore } = choose(flange.opening, portGrown, bore);
  const grind = kind === 'blend' ? [...outside(port, loop), ...outside(bore, loop)] : [];
  return { ...opened(kind, loop), pocket, tubeEnd, bore, withinBore, grind };
}

function movedTo(of: PlatePort, { loop, pocket, ...pattern }: Pattern): PortOpening {
  const there = (each: Loop): Loop => movedLoop(each, 0, of.at);
  const { tubeEnd, bore } = pattern;
  return {
    ...pattern,
    of,
    port: there(pattern.port),
    opening: { name: `port ${of.port.id}`, loop: there(loop), exact: undefined },
    pocket: pocket && { name: `socket ${of.port.id}`, loop: there(pocket.loop), depth: pocket.depth },
    tubeEnd: tubeEnd && there(tubeEnd),
    bore: bore && there(bore),
    grind: pattern.grind.map((stroke) => stroke.map((point) => plus(point, of.at))),
  };
}

/** Shares of the asked margin that are tried, widest first: a plain outline is easier to cut and to grind. */
const SHARES = [1, 0.75, 0.5, 0.25, 0];

function choose(
  asked: FlangeSpec['opening'],
  portGrown: (share: number) => Loop,
  bore: Loop,
): { kind: 'port' | 'bore' | 'blend'; loop: Loop; withinBore: boolean } {
  if (asked === 'port') return { kind: 'port', loop: portGrown(1), withinBore: false };
  if (asked === 'bore') return { kind: 'bore', loop: bore, withinBore: true };
  if (asked === 'auto') {
    // With less margin the port itself often still fits the bore.
    const fits = SHARES.map(portGrown).find((loop) => isWithin(loop, bore));
    if (fits !== undefined) return { kind: 'port', loop: fits, withinBore: true };
  }
  const common = intersection([portGrown(1)], [bore]);
  const [whole] = common;
  return whole === undefined || common.length !== 1
    ? { kind: 'port', loop: portGrown(1), withinBore: false }
    : { kind: 'blend', loop: whole, withinBore: true };
}

/** Whether a loop lies wholly inside another, by points close together on it. */
const isWithin = (loop: Loop, other: Loop): boolean => chordsOf(loop, 0.02).every((p) => isInside(other, p));

/** How much of the port the plate covers, and the greatest step that the gas meets there. */
function coveredBy(port: Loop, opening: Loop): { area: number; step: number } {
  const step = chordsOf(port, 0.02).reduce(
    (most, p) => (isInside(opening, p) ? most : Math.max(most, distanceTo(opening, p).distance)),
    0,
  );
  if (step <= tolerance.file) return { area: 0, step: 0 };
  const area = difference([port], [opening]).reduce((sum, loop) => sum + areaOf(loop), 0);
  return { area: Math.max(0, area), step };
}

/** Longest step along an etched outline, mm: half of what it must keep off the opening. */
const STEP = 0.25;

/** The runs of a loop that lie on metal, clear of an opening's edge by half a millimetre. */
function outside(loop: Loop, opening: Loop): Stroke[] {
  // Straight sides too are taken in short steps: their middle may lie over the opening where the ends do not.
  const points = loop.flatMap((piece) => {
    const count = Math.ceil(lengthOf(piece) / STEP);
    return Array.from({ length: count }, (_, k) => pointAt(piece, k / count));
  });
  const free = points.map((p) => !isInside(opening, p) && distanceTo(opening, p).distance > 0.5);
  const start = free.indexOf(false);
  if (start < 0) return [[...points, points[0] as Stroke[number]]];
  const runs: Stroke[number][][] = [];
  let run: Stroke[number][] = [];
  for (let k = 1; k <= points.length; k++) {
    const i = (start + k) % points.length;
    if (free[i]) run.push(points[i] as Stroke[number]);
    else {
      if (run.length > 1) runs.push(run);
      run = [];
    }
  }
  return runs;
}

/** Lean of the tube off square to the plate, rad. */
export const leanOf = (direction: Vector): number => Math.acos(Math.min(1, direction[2]));

/** `leaning 12 deg`, or `square to the plate`. */
export function leanWords(direction: Vector): string {
  const lean = degrees(leanOf(direction));
  return lean < 0.01 ? 'square to the plate' : `leaning ${Number(lean.toFixed(2))} deg`;
}
