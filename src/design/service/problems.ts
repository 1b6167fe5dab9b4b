import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import type { Job } from '../../job/job.js';
import type { Service, ServiceStep, ToldBlocker } from './steps.js';
import { wayWords } from './ways.js';

const mm = (value: number): string => `${tidy(value, 1)} mm`;
const shortBy = (value: number): string => mm(Math.ceil(value * 10 - 0.1) / 10);

/** Blockers told in one message; the rest are counted. */
const TOLD = 3;

/** What is to be told of fitting: warnings, each with the smallest move that helps. */
export function serviceProblems(job: Job, service: Service, unseen: readonly number[]): readonly Problem[] {
  const problems: Problem[] = [];
  for (const step of [service.collectorStays, ...service.steps]) {
    if (step === undefined || step.blockers.length === 0) continue;
    if (step.kind === 'collector') problems.push(collectorStays(job, step, service.inOne));
    if (step.kind === 'header') problems.push(headerStays(step));
    if (step.kind === 'nut') problems.push(noToolRoom(job, step));
    if (step.kind === 'neighbour') problems.push(neighbourStays(step));
  }
  if (service.joined.length > 0) problems.push(facesJoined(job, service.joined));
  for (const { step } of service.neighbours)
    if (
      step.blockers.length > 0 &&
      !service.steps.some(({ kind, name }) => kind === 'neighbour' && name === step.name)
    )
      problems.push(neighbourStays(step));
  for (const i of unseen) problems.push(notLookedAt(job, i));
  return [...problems, ...shortEngagement(job, service)];
}

/** `starter, 4.2 mm short (it waits for the header itself)`. */
function inTheWay({ blockers }: ServiceStep): string {
  const words = [...blockers]
    .sort((a, b) => b.missing - a.missing)
    .slice(0, TOLD)
    .map(({ name, missing, stays }) => {
      const why =
        stays === 'waits'
          ? ', which cannot come off before it'
          : stays === 'blocked'
            ? ', which does not come out'
            : '';
      return `${name}${why}: ${shortBy(missing)} short`;
    });
  const more = blockers.length - words.length;
  return `${words.join('; ')}${more > 0 ? `; and ${more} more` : ''}`;
}

/** The move of each blocker that helps. */
function moves({ blockers }: ServiceStep): string {
  const words = blockers
    .slice(0, TOLD)
    .map(({ name, missing, shift }: ToldBlocker) =>
      shift === undefined
        ? `lead ${name} another way, clear by ${mm(Math.ceil(missing))}`
        : `move ${name} ${mm(shift.by)} ${shift.toward}, or take that much off it`,
    );
  return words.join(', and ');
}

const reachOf = ({ blockers, distance }: ServiceStep): string =>
  `${mm(Math.max(0, Math.min(distance, ...blockers.map(({ reach }) => reach))))} of ${mm(distance)}`;

const at = (step: ServiceStep, own: string): { place: { path: string } } => ({
  place: { path: step.blockers.find(({ path }) => path !== undefined)?.path ?? own },
});

function collectorStays(job: Job, step: ServiceStep, inOne: boolean): Problem {
  const depth = job.collector?.slip.depth ?? 0;
  const missing = Math.ceil(Math.max(...step.blockers.map((one) => one.missing)) * 10 - 0.1) / 10;
  const shorter = depth - missing;
  const least = (job.tube?.od ?? 0) / 2;
  const slip = shorter >= least ? `; or make collector.slip.depth ${mm(shorter)}` : '';
  return {
    code: 'service/collector-stays',
    severity: 'warning',
    what: `the collector can be drawn off ${reachOf(step)} (slip depth and ${mm(job.service.beyond)}); in the way: ${inTheWay(step)}`,
    why: inOne
      ? 'the header comes off only in one with its collector, undone at its outlet, which takes two pairs of hands'
      : 'the tubes stay in their sleeves, so neither collector nor header comes off',
    fix: `${moves(step)}${slip}`,
    ...at(step, 'collector'),
  };
}

const headerStays = (step: ServiceStep): Problem => ({
  code: 'service/header-stays',
  severity: 'warning',
  what: `${step.name === 'header' ? 'the header' : step.name} can be drawn off its studs ${reachOf(step)}; in the way: ${inTheWay(step)}`,
  why: 'it goes neither on nor off with that in place',
  fix: moves(step),
  ...at(step, 'studs'),
});

function noToolRoom(job: Job, step: ServiceStep): Problem {
  const { tool } = job.wrench;
  const other = tool === 'socket' ? 'spanner' : 'socket';
  return {
    code: 'service/no-tool-room',
    severity: 'warning',
    what: `stud ${step.stud ?? ''} has no room for its nut and a ${tool}: ${inTheWay(step)}`,
    why: 'a nut that cannot be reached is not tightened, and leaks',
    fix: `${moves(step)}; or try wrench.tool: ${other}`,
    ...at(step, step.path ?? 'studs'),
  };
}

const neighbourStays = (step: ServiceStep): Problem => ({
  code: 'service/neighbour-stays',
  severity: 'warning',
  what: `${step.name} can be drawn ${wayWords(step.way)} ${reachOf(step)}; in the way: ${inTheWay(step)}`,
  why: 'it cannot be taken off for service as the job says',
  fix: `${moves(step)}, or say another way in comes_out`,
  place: { path: `${step.path ?? 'keep_outs'}.comes_out` },
});

const facesJoined = (job: Job, joined: Service['joined']): Problem => ({
  code: 'service/faces-joined',
  severity: 'warning',
  what: `${joined.map((ids) => ids.join(' and ')).join(', ')} stand on faces that look different ways and are joined stiffly, by ${job.collector?.joint === 'slip' ? 'a collector that cannot be drawn off' : 'a welded collector'}: no one way leaves all ${job.studs?.all.length ?? 'their'} studs`,
  why: 'each plate is held on its studs by the others',
  fix: 'set collector.joint: slip, or use studs that are screwed out first and check again with studs.stands set to what is left',
  place: { path: 'collector.joint' },
});

const notLookedAt = (job: Job, index: number): Problem => ({
  code: 'service/not-looked-at',
  severity: 'note',
  what: `${job.keepOuts[index]?.name ?? 'a keep-out'} was left out when fitting was looked at`,
  why: 'the header may run into it on its way on or off',
  fix: 'stand a box, cylinder or capsule in its place, or try it on the engine',
  place: { path: `keep_outs.${index}` },
});

function shortEngagement({ collector }: Job, { growth }: Service): Problem[] {
  if (growth?.held === undefined || growth.leastHeld === undefined || collector === undefined) return [];
  const { held, leastHeld, gapHeld, gap } = growth;
  if (held >= leastHeld) return [];
  return [
    {
      code: 'service/short-engagement',
      severity: 'warning',
      what: `of ${mm(collector.slip.depth)} slip depth ${mm(Math.max(0, held))} stay together beside a cold end gap of ${mm(Math.max(gap, gapHeld))} (least ${mm(leastHeld)}; growth is estimated)`,
      why: 'a short joint rattles and leaks, and one without an end gap pushes the header off its flange',
      fix: `make collector.slip.depth ${mm(Math.ceil(collector.slip.depth + leastHeld - held))}`,
      place: { path: 'collector.slip.depth' },
    },
  ];
}
