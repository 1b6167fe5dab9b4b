import { degrees, radians, tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import { tolerance } from '../base/tolerance.js';
import { add, dot3, scale, subtract } from '../base/vectors.js';
import { centreLineOf, missOf, type CentreLine, type CentreLineStart } from '../geom/centre-line.js';
import { portClockingZero } from '../geom/clocking-zero.js';
import type { Job, Port } from '../job/job.js';
import { collectorSlots, type CollectorSlot } from './collector-slots.js';

/** The centre lines of a header's primaries, by P1, P2, ... */
export type CentreLines = ReadonlyMap<string, CentreLine>;

/**
 * What a joint at the collector takes up: mm between tube and slot, rad between their directions. A slip joint of
 * 0.4 mm over 45 mm of depth has half a degree of play; half a degree opens a butted 42 mm tube by 0.4 mm on
 * one side, a quarter of its wall; a saw and a hand do no better. Common practice, no source.
 */
export const JOINT_TAKES_UP = { distance: 0.5, angle: radians(0.5) } as const;

/**
 * Where a primary begins: the port's point moved square off its face by the flange's thickness (none without
 * a flange), along the port's direction, clocking counted from the port's clocking zero.
 */
export const primaryStart = (port: Port, flangeThickness: number): CentreLineStart => ({
  at: add(port.at, scale(port.face.out, flangeThickness)),
  direction: port.direction,
  clockReference: portClockingZero(port.direction),
});

/** The centre lines of the primaries whose routes the job gives by hand. */
export function linesByHand(job: Job): CentreLines {
  const lines = new Map<string, CentreLine>();
  for (const port of job.ports) {
    const rows = job.primaries?.byHand[port.id];
    if (rows !== undefined)
      lines.set(port.id, centreLineOf(primaryStart(port, job.flange?.thickness ?? 0), rows));
  }
  return lines;
}

/** A job with what stands already of primaries whose lines are only the rest. */
type JobWithParts = Job & { readonly builtParts?: Readonly<Record<string, { readonly length: number }>> };

/**
 * Says, as warnings, where primaries do not meet their slots, share one, or differ too much in length.
 * Slots that the job leaves free to turn are not judged.
 */
export const checkLines = (job: JobWithParts, lines: CentreLines): readonly Problem[] => [
  ...slotMisses(job, lines),
  ...lengthsApart(job, lines),
];

function slotMisses(job: Job, lines: CentreLines): readonly Problem[] {
  const { collector, tube } = job;
  if (collector === undefined || tube === undefined || collector.clocking === undefined) return [];
  const { slots } = collectorSlots(collector, tube.od, job.ports.length);
  const problems: Problem[] = [];
  const holder = new Map<string, string>();
  job.ports.forEach((port, i) => {
    const line = lines.get(port.id);
    if (line === undefined) return;
    const named = Array.isArray(collector.slots) ? (collector.slots[i] as string | undefined) : undefined;
    const slot = slots.find(({ id }) => id === named) ?? nearestSlot(slots, line);
    if (slot === undefined) return;
    const place = { path: `primaries.by_hand.${port.id}` };
    const before = holder.get(slot.id);
    if (before !== undefined)
      problems.push({
        code: 'cradle/slot-shared',
        severity: 'warning',
        what: `${before} and ${port.id} both end nearest to ${slot.id}`,
        why: 'one of them has no place at the collector',
        fix: `give one of them rows that end at another slot, or name the slots: collector.slots: [${slots.map((s) => s.id).join(', ')}]`,
        place,
      });
    holder.set(slot.id, port.id);
    const miss = missOf(line.end, slot);
    if (miss.distance <= JOINT_TAKES_UP.distance && miss.angle <= JOINT_TAKES_UP.angle) return;
    const ahead = dot3(subtract(slot.at, line.end.at), line.end.direction);
    const aside = Math.sqrt(Math.max(0, miss.distance ** 2 - ahead ** 2));
    problems.push({
      code: 'cradle/misses-slot',
      severity: 'warning',
      what: `${port.id} ends ${tidy(miss.distance, 1)} mm from ${slot.id} and ${tidy(degrees(miss.angle), 1)} deg off its direction (limit ${JOINT_TAKES_UP.distance} mm and ${tidy(degrees(JOINT_TAKES_UP.angle), 2)} deg)`,
      why: 'the tube will not enter the collector without being forced, and a forced joint cracks at the flange',
      fix: `make its last straight ${tidy(Math.abs(ahead), 1)} mm ${ahead < 0 ? 'shorter' : 'longer'}${aside > JOINT_TAKES_UP.distance ? `; ${tidy(aside, 1)} mm sideways then remain, for its bends to take up` : ''}`,
      place,
    });
  });
  return problems;
}

function nearestSlot(slots: readonly CollectorSlot[], line: CentreLine): CollectorSlot | undefined {
  const far = (slot: CollectorSlot): number => missOf(line.end, slot).distance;
  return slots.reduce<CollectorSlot | undefined>(
    (best, slot) => (best === undefined || far(slot) < far(best) ? slot : best),
    undefined,
  );
}

function lengthsApart({ length: asked, builtParts }: JobWithParts, lines: CentreLines): readonly Problem[] {
  if (asked === undefined || lines.size === 0) return [];
  const whole = [...lines].map(([id, line]) => {
    const length = line.length + (builtParts?.[id]?.length ?? 0);
    return [id, { length }] as const;
  });
  const sorted = whole.sort(([, a], [, b]) => a.length - b.length);
  const [shortest, longest] = [sorted[0], sorted.at(-1)];
  if (shortest === undefined || longest === undefined) return [];
  const problems: Problem[] = [];
  const apart = longest[1].length - shortest[1].length;
  if (apart > asked.spread + tolerance.samePoint)
    problems.push({
      code: 'cradle/lengths-apart',
      severity: 'warning',
      what: `${longest[0]} is ${tidy(longest[1].length, 1)} mm long and ${shortest[0]} ${tidy(shortest[1].length, 1)}: ${tidy(apart, 1)} mm apart, where the spread asked is ${tidy(asked.spread, 1)}`,
      why: 'primaries of different length are tuned to different speeds',
      fix: `bring them ${tidy(apart - asked.spread, 1)} mm nearer to each other (two straights that run opposite ways, each changed by half of it, move no end), or set length.spread: ${tidy(Math.ceil(apart * 10) / 10, 1)}`,
      place: { path: 'length.spread' },
    });
  for (const [id, line] of sorted) {
    const out = line.length < asked.from ? line.length - asked.from : line.length - asked.to;
    const within = line.length >= asked.from - asked.spread && line.length <= asked.to + asked.spread;
    if (within) continue;
    problems.push({
      code: 'cradle/length-not-asked',
      severity: 'warning',
      what: `${id} is ${tidy(line.length, 1)} mm long, where ${asked.from === asked.to ? tidy(asked.from, 1) : `${tidy(asked.from, 1)} to ${tidy(asked.to, 1)}`} is asked`,
      why: 'the header will not be tuned to the speed it was meant for',
      fix: `make it ${tidy(Math.abs(out), 1)} mm ${out > 0 ? 'shorter' : 'longer'}, or change the length asked`,
      place: { path: `primaries.by_hand.${id}` },
    });
  }
  return problems;
}
