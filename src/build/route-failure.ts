import { tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import type { Certificate, Effort, RouteResult } from '../design/route/index.js';

/** What is to be told of a search that found nothing, or was stopped. */
export function routeFailure(result: RouteResult, effort: Effort): Problem[] {
  if (result.outcome === 'proved impossible') return result.proofs.map(impossible);
  const more = effort === 'thorough' ? 'another --seed' : '--effort thorough';
  if (result.outcome === 'not found') return [notFound(result, more)];
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
  return {
    code: 'route/not-found',
    severity: 'error',
    what: `no set of routes was found${early}; that none exists is not proved.${blocked === '' ? '' : ` In the way: ${blocked}.`}${way}`,
    why: 'there is nothing to cut from',
    fix:
      without.length > 0
        ? `it goes without ${without.join(', or without ')}: move or shrink that, or ask less clearance of it`
        : `try ${more}, leave out collector.clocking so that it may turn, or widen length`,
    place: { path: without.length > 0 ? 'keep_outs' : 'length' },
  };
}

function impossible(proof: Certificate): Problem {
  const base = { code: 'route/impossible', severity: 'error' } as const;
  if (proof.kind === 'stub blocked')
    return {
      ...base,
      what: `the first straight of ${proof.primary} meets ${proof.obstacle}: ${tidy(proof.short, 1)} mm short of clear`,
      why: 'the tube cannot leave its port',
      fix: `move ${proof.obstacle} ${tidy(proof.short, 1)} mm away, or make primaries.stub shorter`,
      place: { path: 'primaries.stub' },
    };
  if (proof.kind === 'slot blocked')
    return {
      ...base,
      what: `the last straight to ${proof.slot} meets ${proof.obstacle}: ${tidy(proof.short, 1)} mm short of clear`,
      why: 'the tube cannot reach the collector',
      fix: `move the collector ${tidy(proof.short, 1)} mm away from ${proof.obstacle}`,
      place: { path: 'collector.at' },
    };
  if (proof.kind === 'slots shared')
    return {
      ...base,
      what: `${proof.primaries.join(', ')} cannot all have a slot of their own: those within reach are too few`,
      why: 'two tubes cannot end in one slot',
      fix: 'allow a greater length, or let the collector turn (leave out collector.clocking)',
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
