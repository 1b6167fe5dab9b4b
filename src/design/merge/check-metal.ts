import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';
import { tolerance } from '../../base/tolerance.js';
import { leastGap } from '../../geom/least-gap.js';
import { leastNeck } from '../../geom/least-neck.js';
import { isInside, pointOf } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import type { PlatePart } from '../parts.js';
import { edgeOf } from './bolts.js';
import type { MergePlan } from './plan.js';
import { freeInside, leastThat, neighbourWeb, webBetween } from './tubes.js';

/** What an edge belongs to: edges of one kind are cured alike and told once, at the worst place. */
type Kind = 'tube' | 'centre tube' | 'star' | 'bolt' | 'outline';

interface Edge {
  readonly name: string;
  readonly kind: Kind;
  readonly loop: Loop;
}

interface Web {
  readonly a: Edge;
  readonly b: Edge;
  readonly found: number;
}

/** Every edge of the plate that cuts metal, the outline last. */
export function edgesOf({ tubes, centre, star, bolts, outline }: MergePlan): readonly Edge[] {
  return [
    ...tubes.map(({ opening }): Edge => ({ name: opening.name, kind: 'tube', loop: opening.loop })),
    ...(centre === undefined ? [] : [{ name: centre.name, kind: 'centre tube', loop: centre.loop } as const]),
    ...(star === undefined ? [] : [{ name: 'the star hole', kind: 'star', loop: edgeOf(star) } as const]),
    ...(bolts?.holes ?? []).map((hole): Edge => ({ name: hole.name, kind: 'bolt', loop: edgeOf(hole) })),
    { name: 'the outline', kind: 'outline', loop: outline },
  ];
}

/** The metal between every two edges, mm; 0 where they cross, or a hole stands outside the outline. */
function websOf(plan: MergePlan): readonly Web[] {
  const edges = edgesOf(plan);
  return edges.flatMap((a, i) =>
    edges.slice(i + 1).map((b): Web => {
      if (b.kind !== 'outline') return { a, b, found: webBetween(a.loop, b.loop) };
      return { a, b, found: isInside(b.loop, pointOf(a.loop)) ? leastGap(a.loop, b.loop).gap : 0 };
    }),
  );
}

/** The least metal anywhere, for the record and for the measure of the file read back. */
export function leastMetal(plan: MergePlan): PlatePart['leastWeb'] {
  const least = websOf(plan).reduce((best, web) => (web.found < best.found ? web : best));
  return { asked: plan.plate.leastWeb, found: least.found, where: `${least.a.name} and ${least.b.name}` };
}

/** Enough metal everywhere, and all of it in one piece. */
export function checkMetal(plan: MergePlan): readonly Problem[] {
  const { plate } = plan;
  if (plan.pieces > 1)
    return [
      {
        code: 'merge/in-pieces',
        severity: 'error',
        what: `the metal round the holes makes ${plan.pieces} separate pieces`,
        why: 'the table would cut loose rings instead of a plate',
        fix: `set merge_plate.edge: ${tidy(2 * plate.edge, 1)}, or outline: round`,
        place: { path: 'merge_plate.edge' },
      },
    ];
  const worst = new Map<string, Web>();
  for (const web of websOf(plan)) {
    if (web.found >= plate.leastWeb - tolerance.samePoint) continue;
    const kinds = `${web.a.kind} ${web.b.kind}`;
    const before = worst.get(kinds);
    if (before === undefined || web.found < before.found) worst.set(kinds, web);
  }
  return [...[...worst.values()].map((web) => thinWeb(web, plan)), ...thinNeck(plan)];
}

function thinWeb(web: Web, plan: MergePlan): Problem {
  const { plate } = plan;
  const { a, b, found } = web;
  const amount = found <= 0 ? 'no metal' : `${tidy(found, 2)} mm of metal`;
  const { cure, path } = cureOf(web, plan);
  const own =
    found > 0.5
      ? `, or set merge_plate.least_web: ${tidy(Math.floor(found * 10) / 10, 1)} if your shop can cut and weld it`
      : '';
  return {
    code: 'merge/thin-web',
    severity: 'error',
    what: `${amount} between ${a.name} and ${b.name}, least ${tidy(plate.leastWeb, 2)} mm by ${plate.cutBy}`,
    why:
      b.kind === 'tube'
        ? 'a thin bridge between two tubes burns away on the table, or cracks between their welds'
        : 'a thin web burns away on the table or pulls out of place beside the weld',
    fix: `${cure}${own}`,
    place: { path },
  };
}

function cureOf({ a, b, found }: Web, plan: MergePlan): { readonly cure: string; readonly path: string } {
  const { plate, rules, bolts } = plan;
  const short = plate.leastWeb - found;
  const kinds = [a.kind, b.kind];
  if (b.kind === 'tube') return { cure: wider(plan), path: 'collector.slot_gap' };
  if (b.kind === 'outline')
    return {
      cure: `set merge_plate.edge: ${tidy(Math.ceil((plate.edge + short) * 10) / 10, 1)}`,
      path: 'merge_plate.edge',
    };
  if (kinds.includes('bolt')) {
    // Neighbouring bolts stand 2 r sin(pi / n) apart.
    const ring = plate.boltRing;
    const crowded = a.kind === 'bolt' && ring !== undefined;
    const apart = crowded ? (ring.hole + plate.leastWeb) / (2 * Math.sin(Math.PI / ring.count)) : 0;
    const circle = Math.max(2 * apart, 2 * (bolts?.least ?? 0));
    return {
      cure: `set merge_plate.bolt_ring.circle: ${tidy(Math.ceil(circle), 0)}${crowded ? ', or take fewer bolts' : ''}`,
      path: 'merge_plate.bolt_ring',
    };
  }
  // What is left stands on the axis: a star hole or a centre tube against the ring.
  const room = 2 * (freeInside(plan.tubes) - plate.leastWeb);
  const [key, most] = b.kind === 'star' ? ['star_hole', room] : (['centre_tube', room - plate.gap] as const);
  const smaller =
    most >= 1
      ? `set merge_plate.${key}: ${tidy(Math.floor(most * 10) / 10, 1)} or less`
      : `leave merge_plate.${key} out`;
  return {
    cure: `${smaller}, or set collector.slot_gap: ${tidy(rules.slotGap + Math.ceil(short * 10) / 10, 1)} or more`,
    path: `merge_plate.${key}`,
  };
}

/** What brings the bridge between neighbouring tubes up to what is asked. */
function wider({ plate, rules }: MergePlan): string {
  const enough = (change: Partial<typeof rules>): boolean =>
    neighbourWeb({ ...rules, ...change }) >= plate.leastWeb - tolerance.samePoint;
  const gap = leastThat(rules.slotGap, rules.slotGap + 60, (slotGap) => enough({ slotGap }));
  const cures = gap === undefined ? [] : [`set collector.slot_gap: ${tidy(gap, 1)}`];
  if (rules.lean > 0) {
    const back = leastThat(rules.upstream, rules.upstream + 60, (upstream) => enough({ upstream }));
    if (back !== undefined)
      cures.push(`stand the plate further upstream (merge_plate.upstream: ${tidy(back, 1)})`);
  }
  return cures.join(', or ');
}

function thinNeck({ plate, outline }: MergePlan): Problem[] {
  const neck = leastNeck(outline);
  if (neck === undefined || neck.width >= plate.leastWeb) return [];
  return [
    {
      code: 'merge/thin-neck',
      severity: 'error',
      what: `the plate is ${tidy(neck.width, 1)} mm wide near (${tidy(neck.from[0], 0)}, ${tidy(neck.from[1], 0)}), least ${tidy(plate.leastWeb, 2)} mm`,
      why: 'a narrow neck burns away on the table or bends in handling',
      fix: `set merge_plate.edge: ${tidy(Math.ceil(plate.edge + plate.leastWeb - neck.width), 0)}`,
      place: { path: 'merge_plate.edge' },
    },
  ];
}
