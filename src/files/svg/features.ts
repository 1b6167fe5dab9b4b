import { roundTo, tidy } from '../../base/numbers.js';
import type { Point } from '../../base/points.js';
import type { PlatePart } from '../../design/parts.js';
import { boundsOf, circleLoop } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import { roundnessOf } from '../dxf/roundness.js';

/** An opening, hole or pocket of a plate as the drawing names and lists it. */
export interface Feature {
  /** How it is called on the drawing: P1 for `port P1`, 3 for `stud 3`, a letter for what has no number. */
  readonly tag: string;
  readonly name: string;
  readonly kind: 'opening' | 'filed slot' | 'cut hole' | 'drilled hole' | 'pocket';
  readonly loop: Loop;
  /** Middle of its box. */
  readonly centre: Point;
  /** `Ø 42.4`, `38.12 x 33.3`. */
  readonly size: string;
  /** What is done: `cut`, `drill`, ... */
  readonly made: string;
  /** Where the drill goes. */
  readonly drillAt: readonly Point[];
}

/** The features of a plate: ports and tubes, studs by number whether round or slotted, the others, pockets. */
export function featuresOf(part: PlatePart): readonly Feature[] {
  const openings = part.openings.map(({ name, loop, drill }) => ({
    ...placeOf(loop),
    name,
    loop,
    kind: drill ? ('filed slot' as const) : ('opening' as const),
    made: drill ? `drill Ø ${tidy(drill.diameter, 2)} at both ends, file` : 'cut',
    drillAt: drill ? drill.ends : [],
  }));
  const holes = part.holes.map(({ name, at, diameter, made }) => ({
    name,
    loop: circleLoop(at, diameter / 2),
    centre: at,
    size: `Ø ${tidy(diameter, 2)}`,
    kind: made === 'cut' ? ('cut hole' as const) : ('drilled hole' as const),
    made: made === 'cut' ? 'cut' : 'drill',
    drillAt: made === 'cut' ? [] : [at],
  }));
  const pockets = part.pockets.map(({ name, loop, depth }) => ({
    ...placeOf(loop),
    name,
    loop,
    kind: 'pocket' as const,
    made: `pocket ${tidy(depth)} deep`,
    drillAt: [],
  }));
  const all = [...openings, ...holes, ...pockets]
    .map((feature) => ({ feature, rank: rankOf(feature.name, feature.kind) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ feature }) => feature);
  const tags = tagsOf(all.map((feature) => feature.name));
  return all.map((feature, i) => ({ tag: tags[i] ?? '', ...feature }));
}

/** Whether the gas passes through it. */
export const isPassage = ({ name, kind }: Pick<Feature, 'name' | 'kind'>): boolean =>
  kind === 'opening' && /^(port|tube) /.test(name);

function rankOf(name: string, kind: Feature['kind']): number {
  if (isPassage({ name, kind })) return 0;
  const stud = /^(?:slot for )?stud (\d+)$/.exec(name)?.[1];
  if (stud !== undefined) return 1 + Number(stud);
  return kind === 'pocket' ? Infinity : Number.MAX_SAFE_INTEGER;
}

function tagsOf(names: readonly string[]): readonly string[] {
  const used = new Set<string>();
  let letters = 0;
  return names.map((name) => {
    const own = /^(?:port|tube|stud|slot for stud) (\w+)$/.exec(name)?.[1];
    const tag = own !== undefined && !used.has(own) ? own : String.fromCharCode(97 + letters++);
    used.add(tag);
    return tag;
  });
}

function placeOf(loop: Loop): { readonly centre: Point; readonly size: string } {
  const { left, right, bottom, top } = boundsOf(loop);
  const round = roundnessOf(loop);
  return {
    centre: [(left + right) / 2, (bottom + top) / 2],
    size: round ? `Ø ${tidy(2 * round.radius, 2)}` : `${tidy(right - left, 2)} x ${tidy(top - bottom, 2)}`,
  };
}

/** A coordinate of the table: two decimals, so that the points stand below each other. */
export const coordinateText = (value: number): string => roundTo(value, 2).toFixed(2);
