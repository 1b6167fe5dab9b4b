import { tidy } from '../base/numbers.js';
import type { Outcome, Problem } from '../base/problems.js';
import { circleLoop } from '../geom/loops.js';
import { leastGap } from '../geom/least-gap.js';
import { grow } from '../geom/offset.js';
import type { Job, StrongbackSpec } from '../job/job.js';
import type { DesignedFlange } from './flange/designed.js';
import { designFlanges } from './flange/flange.js';
import { madeHow } from './flange/holes.js';
import { letterCentred, letterWidth } from './lettering.js';
import type { Mark, PlatePart, RoundHole } from './parts.js';
import { markField, nearestRoom } from './room-for-mark.js';

/**
 * The strongback of every flange of the job: a thick plate with the flange's own studs, that holds it flat
 * while it is welded, stands it up in the fixture, measures the head, and closes it for a leak test (so it
 * has no openings). Drawn from the same numbers as the flange, grown by its margin.
 */
export function designStrongbacks(job: Job): Outcome<readonly PlatePart[]> {
  const spec = job.strongback;
  if (spec === undefined) return { value: [], problems: [] };
  // The flange's own problems are told once, by the flange.
  const flanges = designFlanges(job);
  if (flanges.value === undefined) return { value: undefined, problems: flanges.problems };
  const problems: Problem[] = [];
  const value = flanges.value.map((flange) => strongbackOf(job, spec, flange, problems));
  const stopped = problems.some((problem) => problem.severity === 'error');
  return { value: stopped ? undefined : value, problems };
}

function strongbackOf(
  job: Job,
  spec: StrongbackSpec,
  { part, plan }: DesignedFlange,
  problems: Problem[],
): PlatePart {
  const outline = grow(part.outline, spec.margin);
  const studs = plan.studs.map(({ at, stud, number }): RoundHole => ({
    name: `stud ${number}`,
    at,
    diameter: stud.hole,
    made: madeHow(stud.hole, spec.thickness, spec.cutBy, false),
  }));
  const holes = [...studs, ...part.holes.filter((hole) => hole.name.startsWith('dowel'))];
  const edges = holes.map((hole) => circleLoop(hole.at, hole.diameter / 2));
  const found = Math.min(...edges.map((edge) => leastGap(edge, outline).gap));
  if (job.flange !== undefined && spec.thickness <= job.flange.thickness)
    problems.push({
      code: 'flange/weak-strongback',
      severity: 'warning',
      what: `the strongback is ${tidy(spec.thickness)} mm thick, the flange ${tidy(job.flange.thickness)} mm`,
      why: 'a plate no stiffer than the flange is pulled along with it as the welds cool',
      fix: `set strongback.thickness to ${tidy(Math.max(20, 2 * job.flange.thickness))} mm`,
      place: { path: 'strongback.thickness' },
    });
  const name = part.name.replace('flange', 'strongback');
  const drilled = holes.filter((hole) => hole.made === 'drilled').length;
  return {
    ...part,
    name,
    family: 'strongback',
    title: part.title.replace('Port flange', 'Strongback'),
    material: spec.material,
    thickness: spec.thickness,
    outline,
    openings: [],
    holes,
    pockets: [],
    marks: marksOf(job.name, outline, edges),
    view: 'seen from the side that the flange is bolted to',
    remarks: [
      'Bolt the flange on with its TUBE SIDE out, weld, and leave it bolted until cold.',
      ...(drilled > 0 ? [`Drill ${drilled} holes at the DRILL marks.`] : []),
      'No openings: with a gasket it closes the flange for a leak test with soapy water and low-pressure air, 0.2 bar at most. Never with oxygen or fuel gas.',
    ],
    leastWeb: { asked: part.leastWeb.asked, found, where: 'a stud hole and the outline' },
  };
}

function marksOf(
  jobName: string,
  outline: PlatePart['outline'],
  edges: readonly PlatePart['outline'][],
): Mark[] {
  const field = markField(outline, edges);
  const text = `${jobName.toUpperCase()} STRONGBACK`;
  for (const height of [8, 6, 4]) {
    const box = { centre: [0, 0] as const, width: letterWidth(text, height), height };
    const centre = nearestRoom(field, box, 1.5, 150);
    if (centre !== undefined) return [{ name: 'job name', strokes: letterCentred(text, height, centre) }];
  }
  return [];
}
