import type { TopoDS_Shape } from 'replicad-opencascadejs';
import { degrees, tidy } from '../base/numbers.js';
import { type Problem, Refusal } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { cradleFaults, saddleSpan, type CradleFault } from '../design/cradle-limits.js';
import type { CradlePart } from '../design/parts.js';
import { areaOf } from '../geom/loops.js';
import type { Region, Stroke } from '../geom/segments.js';
import { attempt, type Work } from './attempt.js';
import { cradleBody, MOUTH } from './cradle-body.js';
import { groovesOf, type Panel } from './grooves.js';
import type { Kernel } from './kernel.js';
import { type Claim, prove } from './prove.js';
import { highestOf, isOpen, type Saddle, saddleOf } from './saddle.js';
import { saddleMeasures } from './saddle-measure.js';
import { blockVolume, seatVolume } from './saddle-volume.js';
import { requireSizes } from './sizes.js';
import type { Solid } from './solid.js';

/**
 * A tube cradle in its own frame: a block on a foot with a tab and a screw hole on either side, the seat cut
 * out of it, a slot for a strap under the seat, and lettering on the face that looks upstream.
 * Every face of the seat looks up, so it prints on its foot without support; the slot's roof is a bridge as
 * long as the strap is wide.
 * volume = block + tabs - seat - slot - screw holes - grooves; the seat by seatVolume().
 * @param strokes the lettering, single strokes, reading left to right and up (mm); centred on the face
 * @returns the solid, proved against that volume and its box; the seat's faces against the tube's own axis and
 *   radius; its lips against the way up.
 * @throws Refusal `solid/size`, `solid/cradle-limits`, `solid/saddle`, `solid/kernel`, or what prove() finds.
 */
export function cradleSolid(kernel: Kernel, part: CradlePart, strokes: readonly Stroke[]): Solid {
  requireSizes(part.name, [
    { what: 'tube diameter', value: part.od },
    { what: 'saddle clearance', value: part.clearance, above: -tolerance.samePoint },
    { what: 'width', value: part.width },
    { what: 'height of the tube', value: part.height },
    { what: 'foot thickness', value: part.foot.thickness },
    ...(part.bend ? [{ what: 'CLR', value: part.bend.clr, above: part.od / 2 + part.clearance }] : []),
    ...(part.foot.tab > 0 ? [{ what: 'screw hole', value: part.foot.hole }] : []),
    ...(strokes.length > 0
      ? [{ what: 'engraving depth', value: part.engraving.depth, below: part.width / 4 }]
      : []),
  ]);
  const faults = cradleFaults(part, 0);
  if (faults.length > 0) throw new Refusal(faults.map((fault) => outOfLimits(part, fault)));
  const saddle = saddleOf(part);
  if (part.bend && !isOpen(saddle, part.width, MOUTH)) throw new Refusal([tooTight(part)]);
  const grooves = groovesOf(strokes, panelOf(part));
  const work = workOn(part);
  const shape = attempt(kernel, work, (): TopoDS_Shape => cradleBody(kernel, part, saddle, grooves));
  return attempt(kernel, work, () => prove(kernel, shape, claimOf(kernel, part, saddle, grooves, work.cure)));
}

/** Left free round the lettering, mm. */
const MARGIN = 1;

/** The face that looks upstream, under the seat; seen from upstream, its x runs to the right. */
function panelOf(part: CradlePart): Panel {
  const { lowest } = saddleSpan(part);
  const width = 2 * (part.halfBreadth - MARGIN);
  return { centre: [0, lowest / 2], width, height: Math.max(lowest - 2 * MARGIN, MARGIN) };
}

function claimOf(kernel: Kernel, part: CradlePart, saddle: Saddle, grooves: Region, cure: string): Claim {
  const { width, halfBreadth, foot } = part;
  const high = highestOf(saddle, width);
  const aside = halfBreadth + foot.tab;
  return {
    part: part.name,
    volume: volumeAsked(part, saddle, grooves),
    volumeFrom: part.bend
      ? 'block less the seat, by integration of sections'
      : 'block less the seat, closed form',
    volumeWithin: part.bend ? tolerance.saddleVolume : tolerance.volume,
    bounds: { low: [-width / 2, -aside, 0], high: [width / 2, aside, high] },
    also: { code: 'solid/saddle', measures: (shape) => saddleMeasures(kernel, shape, part, saddle) },
    cure,
  };
}

function volumeAsked(part: CradlePart, saddle: Saddle, grooves: Region): number {
  const { width, halfBreadth, foot, strap, embrace, engraving } = part;
  const block = blockVolume(saddle, width, halfBreadth);
  const tabs =
    foot.tab > 0 ? 2 * (foot.tab * width - (Math.PI * foot.hole * foot.hole) / 4) * foot.thickness : 0;
  const slot = strap ? strap.width * strap.depth * 2 * halfBreadth : 0;
  const lettering = grooves.reduce((sum, loop) => sum + areaOf(loop), 0) * engraving.depth;
  return block + tabs - seatVolume(saddle, width, embrace) - slot - lettering;
}

const workOn = (part: CradlePart): Work => ({
  part: part.name,
  doing: 'cutting the cradle',
  sizes: [
    `tube ${tidy(part.od)} mm, ${tidy(part.height, 2)} mm up`,
    `tilt ${tidy(degrees(part.tilt), 1)} deg`,
    part.bend ? `on a bend of CLR ${tidy(part.bend.clr)} mm` : 'on a straight',
    `${tidy(part.width)} x ${tidy(2 * part.halfBreadth)} mm`,
  ].join(', '),
  cure: 'move the station by 1 mm, or reach 5 degrees less far round the tube',
});

const SAID: Readonly<Record<CradleFault['of'], string>> = {
  tilt: 'the climb of the tube',
  embrace: 'the reach round the tube',
  floor: 'the plastic under the saddle',
  breadth: 'half the breadth of the block',
  strap: "the strap's width",
  foot: 'the screw hole',
};

function outOfLimits(part: CradlePart, { of, found, limit }: CradleFault): Problem {
  const figure = (value: number): string =>
    of === 'tilt' || of === 'embrace' ? `${tidy(degrees(value), 1)} deg` : `${tidy(value, 2)} mm`;
  return {
    code: 'solid/cradle-limits',
    severity: 'error',
    what: `${part.name}: ${SAID[of]} is ${figure(found)}; its limit is ${figure(limit)}`,
    why: 'the tube would not sit, or not lift out, or the plastic would break',
    fix: `bring ${SAID[of]} to ${figure(limit)}`,
  };
}

const tooTight = (part: CradlePart): Problem => ({
  code: 'solid/cradle-limits',
  severity: 'error',
  what: `${part.name}: over ${tidy(part.width)} mm of a bend of CLR ${tidy(part.bend?.clr ?? 0)} the tube wanders out of a saddle that reaches ${tidy(degrees(part.embrace), 1)} deg round it`,
  why: 'the saddle would hold one side of the tube only',
  fix: `make the cradle ${tidy(Math.floor(part.width / 2))} mm wide, or reach ${tidy(Math.min(180, degrees(part.embrace) + 40), 0)} deg round the tube`,
});
