import { tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import type { Certificate, Effort, RouteResult } from '../design/route/index.js';
import { changeWords, wouldFreeNote } from './would-free-words.js';

/** What is to be told of a search that found nothing, or was stopped. */
export function routeFailure(result: RouteResult, effort: Effort): Problem[] {
  const note = wouldFreeNote(result.wouldFree, result.routedWithout);
  if (result.outcome === 'proved impossible') return [...result.proofs.map(impossible), ...note];
  const more = effort === 'thorough' ? 'another --seed' : '--effort thorough';
  if (result.outcome === 'not found') return [notFound(result, more), ...note];
  if (!result.endedEarly) return [];
  return [
    {
      code: 'route/stopped',
      severity: 'warning',
      what: `stopped early: ${result.welds} welds is the best so far, at least ${tidy(result.bound)} are needed`,
      why: 'each weld more is a quarter of an hour',
      fix: 'let it run to its end',
    },
  ];
}

function notFound(result: RouteResult, more: string): Problem {
  const early = result.endedEarly ? ' before the search was stopped' : '';
  const worst = (result.blockage?.blockers ?? []).slice(0, 3);
  const blocked = worst
    .map(({ name, share }) => `${name} (${tidy(100 * share, 0)} % of the tries)`)
    .join(', ');
  const cut = (result.blockage?.cutOff ?? []).map(
    ({ primary, slots }) => `${primary} to ${slots.join(', ')}`,
  );
  const way = cut.length === 0 ? '' : ` No way came through from ${cut.join('; ')}.`;
  const without = result.routedWithout;
  const [smallest] = result.wouldFree;
  return {
    code: 'route/not-found',
    severity: 'error',
    what: `no set of routes was found${early}; that none exists is not proved.${blocked === '' ? '' : ` In the way: ${blocked}.`}${way}`,
    why: 'there is nothing to cut from',
    fix: smallest
      ? `routes were found with ${changeWords(smallest)}; or try ${more}`
      : without.length > 0
        ? `it goes without ${without.join(', or without ')}: move or shrink that, or ask less clearance of it`
        : `try ${more}, leave out collector.clocking so that it may turn, or widen length`,
    place: { path: without.length > 0 ? 'keep_outs' : 'length' },
  };
}

/** A straight at an end made as short as it must be, in whole millimetres; nothing where none is short enough. */
const shorter = (key: string, longest: number): string =>
  longest >= 1 ? `make ${key} ${Math.floor(longest)} mm or less, or ` : '';

function impossible(proof: Certificate): Problem {
  const base = { code: 'route/impossible', severity: 'error' } as const;
  if (proof.kind === 'stub blocked')
    return {
      ...base,
      what: `the first straight of ${proof.primary} meets ${proof.obstacle}: ${tidy(proof.short, 1)} mm short of clear`,
      why: 'the tube cannot leave its port',
      fix: `${shorter('primaries.stub', proof.longest)}${proof.obstacle} must stand at least ${tidy(proof.short, 1)} mm further away`,
      place: { path: 'primaries.stub' },
    };
  if (proof.kind === 'slot blocked')
    return {
      ...base,
      what: `the last straight to ${proof.slot} meets ${proof.obstacle}: ${tidy(proof.short, 1)} mm short of clear`,
      why: 'the tube cannot reach the collector',
      fix: `${shorter('primaries.last_straight', proof.longest)}the collector must stand at least ${tidy(proof.short, 1)} mm further from ${proof.obstacle}`,
      place: { path: 'collector.at' },
    };
  if (proof.kind === 'slots shared')
    return {
      ...base,
      what: `${proof.primaries.join(', ')} cannot all have a slot of their own: within ${tidy(proof.window, 0)} mm those in reach are too few`,
      why: 'two tubes cannot end in one slot',
      fix: `allow ${tidy(Math.ceil(proof.least), 0)} mm or more in length, or let the collector turn (leave out collector.clocking)`,
      place: { path: 'length' },
    };
  const way = proof.round === undefined ? 'the straight line' : `the way round ${proof.round}`;
  return {
    ...base,
    what: `${way} from ${proof.primary} to ${proof.slot} is already ${tidy(proof.least, 0)} mm, the longest allowed ${tidy(proof.window, 0)} mm`,
    why: 'no tube is shorter than its shortest way',
    fix: `allow ${tidy(Math.ceil(proof.least), 0)} mm or more in length, or bring the collector nearer`,
    place: { path: 'length' },
  };
}
