import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { tidy } from '../base/numbers.js';
import type { PlatePart, Pocket } from '../design/parts.js';
import { areaOf, areaOfCurves, boundsOf, circleLoop } from '../geom/loops.js';
import type { CurveLoop } from '../geom/segments.js';
import { attempt, type Work } from './attempt.js';
import { cutAway } from './boolean.js';
import { wireOf } from './contour.js';
import { extruded } from './extrude.js';
import type { Kernel } from './kernel.js';
import { sharedArea } from './overlap.js';
import { type Claim, prove } from './prove.js';
import { withScratch } from './scratch.js';
import { requireSizes, type Size } from './sizes.js';
import type { Box, Solid } from './solid.js';

/**
 * The finished plate as a solid: all openings and holes (cut and drilled alike) go through, pockets are
 * sunk from the side seen. It stands on z = 0 up to z = thickness, drawing x right and y up.
 * volume = (outline - openings - holes) x thickness - sum of (pocket - what is already open in it) x depth.
 * @returns the solid, proved against that volume and the outline's own box.
 * @throws Refusal `solid/size`, `solid/open-contour`, `solid/kernel`, or what prove() finds.
 */
export function plateSolid(kernel: Kernel, part: PlatePart): Solid {
  requireSizes(part.name, sizesOf(part));
  const work = workOn(part);
  const shape = attempt(kernel, work, () => bodyOf(kernel, part));
  return attempt(kernel, work, () => prove(kernel, shape, claimOf(part, work.cure)));
}

const sizesOf = ({ thickness, holes, pockets }: PlatePart): Size[] => [
  { what: 'thickness', value: thickness },
  ...holes.map(({ name, diameter }) => ({ what: `diameter of ${name}`, value: diameter })),
  ...pockets.map(({ name, depth }) => ({ what: `depth of ${name}`, value: depth, below: thickness })),
];

/** What a plate is cut through by, as the solid has it: true ellipses where they are known. */
const throughCuts = (part: PlatePart): readonly { readonly name: string; readonly loop: CurveLoop }[] => [
  ...part.openings.map(({ name, loop, exact }) => ({ name, loop: exact ?? loop })),
  ...part.holes.map(({ name, at, diameter }) => ({ name, loop: circleLoop(at, diameter / 2) })),
];

function bodyOf(kernel: Kernel, part: PlatePart): TopoDS_Shape {
  return withScratch((keep) => {
    const named = (what: string): string => `${part.name}, ${what}`;
    const outer = keep(wireOf(kernel, part.outline, 0, named('outline')));
    const holes = throughCuts(part).map(({ name, loop }) => keep(wireOf(kernel, loop, 0, named(name))));
    const plate = extruded(kernel, outer, holes, 0, part.thickness);
    if (part.pockets.length === 0) return plate;
    keep(plate);
    return cutAway(
      kernel,
      plate,
      part.pockets.map((pocket) => keep(pocketTool(kernel, part, pocket))),
    );
  });
}

/** What is taken out for a pocket: a little taller than the pocket, so that no two faces lie in one another. */
function pocketTool(kernel: Kernel, part: PlatePart, { name, loop, depth }: Pocket): TopoDS_Shape {
  const floor = part.thickness - depth;
  return withScratch((keep) => {
    const edge = keep(wireOf(kernel, loop, floor, `${part.name}, ${name}`));
    return extruded(kernel, edge, [], floor, depth + 1);
  });
}

function claimOf(part: PlatePart, cure: string): Claim {
  const { left, bottom, right, top } = boundsOf(part.outline);
  const bounds: Box = { low: [left, bottom, 0], high: [right, top, part.thickness] };
  const volumeFrom = part.pockets.length > 0 ? 'area x thickness less the pockets' : 'area x thickness';
  return { part: part.name, volume: volumeAsked(part), volumeFrom, bounds, cure };
}

/** mm^3, from the contours alone. */
function volumeAsked(part: PlatePart): number {
  const cuts = throughCuts(part).map(({ loop }) => loop);
  const open = cuts.reduce((sum, loop) => sum + Math.abs(areaOfCurves(loop)), 0);
  const sunk = part.pockets.reduce((sum, { loop, depth }) => {
    const already = cuts.reduce((shared, cut) => shared + sharedArea(loop, cut), 0);
    return sum + (Math.abs(areaOf(loop)) - already) * depth;
  }, 0);
  return (Math.abs(areaOf(part.outline)) - open) * part.thickness - sunk;
}

const workOn = (part: PlatePart): Work => ({
  part: part.name,
  doing: 'making the plate',
  sizes: [
    `thickness ${tidy(part.thickness)} mm`,
    `${part.openings.length} openings`,
    `${part.holes.length} holes`,
    `${part.pockets.length} pockets`,
  ].join(', '),
  cure:
    part.pockets.length > 0
      ? 'see that no opening or hole meets another or the outline, and that every pocket is shallower than the plate'
      : 'see that no opening or hole meets another or the outline: move them 1 mm apart and build again',
});
