import { areaAbout, mm, ink, type SheetPoint } from './pen.js';
import { widthOf, words, wordsAbout, type Words } from './words.js';

/** What a label has to find room among: points of all tubes on the sheet, and half their width there. */
export interface Crowd {
  readonly points: readonly { readonly id: string; readonly near: number; readonly at: SheetPoint }[];
  readonly reach: number;
  readonly within: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
}

/** A primary's name on its tube. */
export interface Badge {
  readonly at: SheetPoint;
  readonly words: Words;
}

const BADGE = 3.4;
const SIZE = 3.6;
const NAME = 2.8;
/** Grid on which a place for a name is sought, mm. */
const GRID = 3;

const apart = (a: SheetPoint, b: SheetPoint): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Sets each primary's name on its own tube, where it is least covered and farthest from the other names. */
export function placeBadges({ points, within }: Crowd, ids: readonly string[]): readonly Badge[] {
  const placed: Badge[] = [];
  for (const id of ids) {
    let best: { at: SheetPoint; room: number } | undefined;
    for (const { id: own, near, at } of points) {
      if (own !== id) continue;
      const edge = Math.min(
        at[0] - within.left,
        within.right - at[0],
        at[1] - within.top,
        within.bottom - at[1],
      );
      const covered = points.filter((other) => other.id !== id && other.near > near - 1);
      const room = Math.min(
        edge,
        ...covered.map((other) => apart(other.at, at)),
        ...placed.map((other) => apart(other.at, at) / 2),
      );
      if (room > (best?.room ?? -Infinity)) best = { at, room };
    }
    if (best) placed.push({ at: best.at, words: wordsAbout(id, best.at, SIZE, { weight: 'bold' }) });
  }
  return placed;
}

/** The white round on which a primary's name stands. */
export const badge = ([x, y]: SheetPoint): string =>
  `<circle cx="${mm(x)}" cy="${mm(y)}" r="${mm(BADGE)}" fill="${ink.paper}" stroke="${ink.black}" stroke-width="0.25"/>`;

/** Names of what is in the way, each inside its own outline and beside every tube; left out where there is no room. */
export function placeNames(
  inTheWay: readonly { readonly name: string; readonly outline: readonly SheetPoint[] }[],
  { points, reach, within }: Crowd,
  badges: readonly SheetPoint[],
): readonly Words[] {
  const placed: Words[] = [];
  const boxes: { x: number; y: number; w: number }[] = [];
  for (const { name, outline } of inTheWay) {
    const half = widthOf(name, NAME) / 2;
    let best: { at: SheetPoint; room: number } | undefined;
    for (let y = within.top + GRID; y < within.bottom - 1; y += GRID)
      for (let x = within.left + half + 1; x < within.right - half - 1; x += GRID) {
        const ends = [-1, -0.5, 0, 0.5, 1].flatMap((share) =>
          [-0.7, 0, 0.7].map((rise): SheetPoint => [x + share * half, y + rise * NAME]),
        );
        if (!areaAbout(outline, [x, y])) continue;
        const others = inTheWay.filter((other) => other.name !== name);
        // From the nearest tube's surface to the box about the words.
        let near = Infinity;
        for (const { at } of points) {
          const [dx, dy] = [
            Math.max(0, Math.abs(at[0] - x) - half),
            Math.max(0, Math.abs(at[1] - y) - 0.7 * NAME),
          ];
          near = Math.min(near, dx * dx + dy * dy);
        }
        const tubes = Math.sqrt(near) - reach;
        if (tubes < NAME * 0.8) continue;
        const names = Math.min(
          Infinity,
          ...boxes.map((box) => Math.max(Math.abs(box.x - x) - box.w - half, Math.abs(box.y - y) - NAME)),
          ...badges.map((at) => Math.min(...ends.map((end) => apart(at, end))) - BADGE),
        );
        const clean = ends.every((end) => areaAbout(outline, end)) ? 1 : 0;
        const alone = others.every((other) => !ends.some((end) => areaAbout(other.outline, end))) ? 2 : 0;
        if (Math.min(tubes, names) < NAME * 0.8) continue;
        const room = 10 * (clean + alone) + Math.min(tubes, names, 6);
        if (room > (best?.room ?? -Infinity)) best = { at: [x, y], room };
      }
    if (best === undefined) continue;
    boxes.push({ x: best.at[0], y: best.at[1], w: half });
    placed.push(
      words(name, [best.at[0], best.at[1] + NAME * 0.3], NAME, { align: 'middle', colour: ink.grey }),
    );
  }
  return placed;
}
