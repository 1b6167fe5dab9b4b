import { tidy } from '../base/numbers.js';
import { FAR, wayWords, type NeighbourOut, type Service, type ServiceStep } from '../design/service/index.js';
import type { Paint } from './paint.js';

const mm = (value: number): string => `${tidy(value, 1)} mm`;

/** "On and off the engine": the steps, one line each, then neighbours and growth. */
export function serviceLines(service: Service, paint: Paint): string[] {
  const { steps, growth, neighbours } = service;
  const lines = ['', paint.strong('On and off the engine')];
  const told = inGroups(steps).map((group) => stepLine(group, service));
  told.forEach((line, i) => lines.push(`  ${i + 1}  ${line}`));
  lines.push(`  ${verdict(service, told.length)}`);
  for (const neighbour of neighbours)
    if (!steps.some(({ kind, name }) => kind === 'neighbour' && name === neighbour.name))
      lines.push(`  ${neighbourLine(neighbour)}`);
  if (growth !== undefined) {
    const furthest = growth.ends.reduce((a, b) => (Math.abs(b.along) > Math.abs(a.along) ? b : a));
    const gaps =
      growth.held === undefined
        ? ''
        : `; cold end gap in the sleeves ${mm(growth.gap)}, or ${mm(growth.gapHeld)} with the outlet held: ${mm(growth.held)} stay together`;
    lines.push(
      `  hot (estimate at ${tidy(growth.at)} C): ends grow up to ${mm(furthest.along)} (${furthest.primary}), ${mm(growth.apart)} apart${gaps}`,
    );
  }
  return lines;
}

function verdict({ comesOff, inOne, steps }: Service, count: number): string {
  if (!comesOff) return 'does not come off: see the warnings';
  if (!steps.some(({ kind }) => kind === 'header'))
    return 'the job gives no studs: how the header leaves the head was not looked at';
  const on = `goes on the other way round${count > 1 ? `, ${count} to 1` : ''}`;
  return `comes off ${inOne ? 'in one with its collector, undone at its outlet' : 'so'}, and ${on}`;
}

/** Nuts that come off one after the other are one step to a person. */
function inGroups(steps: readonly ServiceStep[]): (readonly ServiceStep[])[] {
  const groups: ServiceStep[][] = [];
  for (const step of steps) {
    const last = groups.at(-1);
    if (step.kind === 'nut' && last?.[0]?.kind === 'nut') last.push(step);
    else groups.push([step]);
  }
  return groups;
}

function stepLine(group: readonly ServiceStep[], { inOne }: Service): string {
  const [step] = group;
  if (step === undefined) return '';
  const blocked = group.filter(({ blockers }) => blockers.length > 0);
  const tightest = group.reduce((a, b) => (b.free < a.free ? b : a));
  const what = {
    neighbour: `${step.name}: ${wayWords(step.way)} ${mm(step.distance)}`,
    collector: `collector: undo its outlet, draw it ${mm(step.distance)} along its flow (${wayWords(step.way)})`,
    nut: `nuts: ${group.length}`,
    header: `${step.name}${inOne ? ' with its collector' : ''}: ${wayWords(step.way)} ${mm(step.distance)}, off the studs`,
  }[step.kind];
  if (blocked.length > 0) {
    const names = blocked.flatMap(({ stud, blockers }) =>
      blockers.map(
        (one) => `${one.name} ${stud === undefined ? '' : `at stud ${stud} `}(${mm(one.missing)} short)`,
      ),
    );
    return `${what}: blocked by ${[...new Set(names)].slice(0, 4).join(', ')}`;
  }
  const room =
    tightest.nearest === undefined || tightest.free >= FAR
      ? 'nothing near'
      : `${mm(tightest.free)} free of ${tightest.nearest}${group.length > 1 ? ` at stud ${tightest.stud ?? ''}` : ''}`;
  const overlaps = [...new Set(group.flatMap((each) => each.overlaps))];
  const drawn = overlaps.length === 0 ? '' : ` (drawn inside ${overlaps.join(', ')}: not judged)`;
  return `${what}; ${room}${drawn}`;
}

function neighbourLine({ name, way, after, step }: NeighbourOut): string {
  if (step.blockers.length > 0) return `${name} does not come out ${wayWords(way)}`;
  return `${name} comes out ${wayWords(way)}${after.length === 0 ? ' with all in place' : ` after ${after.join(', ')}`}`;
}
