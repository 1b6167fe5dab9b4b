import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { leastGap } from '../../geom/least-gap.js';
import { isInside, pointOf } from '../../geom/loops.js';
import { leastNeck } from '../../geom/least-neck.js';
import type { Loop } from '../../geom/segments.js';
import type { FlangeSpec } from '../../job/job.js';
import type { PlatePart } from '../parts.js';
import type { StudHoles } from './holes.js';
import type { PortOpening } from './opening.js';
import type { PlatePlan } from './plan.js';

interface Edge {
  readonly name: string;
  readonly loop: Loop;
  readonly path: string;
}

/** A plate as cut, to be checked for metal. */
export interface CutPlate {
  readonly plan: PlatePlan;
  readonly flange: FlangeSpec;
  readonly openings: readonly PortOpening[];
  readonly holes: StudHoles;
  readonly outline: Loop;
  /** Pieces the pads make, and pieces after relief slots and nick. */
  readonly pieces: number;
  readonly afterCuts: number;
  readonly nicked: boolean;
}

/** Enough metal everywhere, and all of it in one piece. */
export function checkMetal(plate: CutPlate): Problem[] {
  const { plan, flange, openings, holes, outline, pieces, afterCuts, nicked } = plate;
  if (pieces > 1) return [inPieces(plan, flange, pieces)];
  if (afterCuts > 1) return [reliefTooDeep(flange)];
  const problems: Problem[] = nicked ? [] : [noNick()];
  const edges = edgesOf(openings, holes);
  edges.forEach((a, i) => {
    for (const b of edges.slice(i + 1)) problems.push(...thinWeb(a, b, flange));
    problems.push(...thinEdge(a, outline, flange));
  });
  const neck = leastNeck(outline);
  if (neck !== undefined && neck.width < flange.leastWeb)
    problems.push({
      code: 'flange/thin-neck',
      severity: 'error',
      what: `the plate is ${tidy(neck.width, 1)} mm wide near (${tidy(neck.from[0], 0)}, ${tidy(neck.from[1], 0)}), least ${tidy(flange.leastWeb)} mm`,
      why: 'a narrow neck burns away on the table or bends in handling',
      fix: `raise flange.web.height by ${tidy(Math.ceil(flange.leastWeb - neck.width + 1), 0)} mm, or flange.boss by as much`,
      place: { path: 'flange.web.height' },
    });
  return problems;
}

const edgesOf = (openings: readonly PortOpening[], holes: StudHoles): Edge[] => [
  ...openings.map((each) => ({
    name: `the opening of ${each.of.port.id}`,
    loop: each.opening.loop,
    path: 'ports',
  })),
  ...holes.edges,
];

/** Metal between two edges inside the plate; less than nothing where they overlap. */
function webBetween(a: Loop, b: Loop): number {
  if (isInside(a, pointOf(b)) || isInside(b, pointOf(a))) return -1;
  return leastGap(a, b).gap;
}

function thinWeb(a: Edge, b: Edge, flange: FlangeSpec): Problem[] {
  const found = webBetween(a.loop, b.loop);
  if (found >= flange.leastWeb) return [];
  const short = tidy(flange.leastWeb - Math.max(found, 0), 1);
  const whose = b.path.startsWith('ports') ? a : b;
  return [
    {
      code: 'flange/thin-web',
      severity: 'error',
      what: `${Math.max(found, 0) === 0 ? 'no metal' : `${tidy(found, 1)} mm of metal`} between ${a.name} and ${b.name}, least ${tidy(flange.leastWeb)} mm by ${flange.cutBy}`,
      why: 'a thin web burns through or warps, and the gasket does not seal over it',
      fix: `move them ${short} mm farther apart, or set flange.least_web to ${tidy(Math.max(found, 0), 1)} if your shop can cut it`,
      place: { path: whose.path },
    },
  ];
}

function thinEdge(a: Edge, outline: Loop, flange: FlangeSpec): Problem[] {
  const inside = isInside(outline, pointOf(a.loop));
  const found = inside ? leastGap(a.loop, outline).gap : -1;
  const isPort = a.path.startsWith('ports');
  const least = isPort ? Math.max(flange.land, flange.leastWeb) : flange.leastWeb;
  if (found >= least) return [];
  const short = tidy(least - Math.max(found, 0), 1);
  const cure = isPort ? `raise flange.edge by ${short} mm` : `raise flange.boss by ${short} mm`;
  return [
    {
      code: 'flange/thin-web',
      severity: 'error',
      what: `${tidy(Math.max(found, 0), 1)} mm of metal between ${a.name} and the outline, least ${tidy(least)} mm`,
      why: isPort
        ? 'the gasket needs land all round the port, or it blows out'
        : 'the edge tears out when the nut is tightened, or burns away at the table',
      fix: flange.relief === undefined ? cure : `${cure}, or make the relief slots shorter`,
      place: { path: isPort ? 'flange.edge' : a.path },
    },
  ];
}

/** The least metal anywhere, for the record and the measure of the file read back. */
export function leastMetal(
  flange: FlangeSpec,
  openings: readonly PortOpening[],
  holes: StudHoles,
  outline: Loop,
): PlatePart['leastWeb'] {
  const edges = edgesOf(openings, holes);
  let [found, where] = [Infinity, ''];
  const note = (gap: number, between: string): void => {
    if (gap < found) [found, where] = [gap, between];
  };
  edges.forEach((a, i) => {
    note(leastGap(a.loop, outline).gap, `${a.name} and the outline`);
    for (const b of edges.slice(i + 1)) note(leastGap(a.loop, b.loop).gap, `${a.name} and ${b.name}`);
  });
  return { asked: flange.leastWeb, found, where };
}

const inPieces = (plan: PlatePlan, flange: FlangeSpec, pieces: number): Problem => ({
  code: 'flange/in-pieces',
  severity: 'error',
  what: `the metal round the ports and studs makes ${pieces} separate pieces`,
  why: 'the table would cut loose islands instead of a flange',
  fix:
    plan.ports.length > 1 && flange.webHeight === 0
      ? 'set flange.web: { height: 30 }, the bar that ties the ports together'
      : `raise flange.boss to ${tidy(flange.boss + 10)} mm, or bring the far stud nearer to its port`,
  place: { path: plan.ports.length > 1 && flange.webHeight === 0 ? 'flange.web.height' : 'flange.boss' },
});

const reliefTooDeep = (flange: FlangeSpec): Problem => ({
  code: 'flange/relief-cuts-through',
  severity: 'error',
  what: `a relief slot ${tidy(flange.relief?.width ?? 0)} mm wide cuts the plate in two`,
  why: 'the plate falls apart on the table',
  fix: `set flange.relief.leave to ${tidy(flange.leastWeb + 2)} mm or more`,
  place: { path: 'flange.relief.leave' },
});

const noNick = (): Problem => ({
  code: 'flange/no-room-for-nick',
  severity: 'warning',
  what: 'no place for the nick up and to the left of the first port with enough metal behind it',
  why: 'without nick or etching the plate can be fitted the wrong way round',
  fix: 'raise flange.edge by 4 mm, or etch the plate (flange.etch: true)',
  place: { path: 'flange.nick' },
});
