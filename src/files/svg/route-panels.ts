import { tidy } from '../../base/numbers.js';
import { bench, flatSeenFrom, frameFacing } from '../../base/frames.js';
import type { RoutePicture } from '../../design/route-picture.js';
import type { Panel } from './panels.js';
import { drawnLine, ink, lines, mm, type SheetPoint } from './pen.js';
import { widthOf, words, wordsAbout, type Words } from './words.js';

const TEXT = 3.2;
const ROW = 5.2;
const SWATCH = 8;
/** A collector whose flow leans less than some 25 degrees from upright has no up to speak of. */
const STEEP = 0.9;

/** The collector's mouth as the tubes stand in it, seen from behind, looking upstream. */
export function mouthPanel(
  { collector, od, primaries }: RoutePicture,
  scale: number,
  colours: ReadonlyMap<string, string>,
  [x, y]: SheetPoint,
): Panel {
  if (collector === undefined) return { width: 0, height: 0, drawn: [], words: [] };
  const { frame, radius, slots } = collector.mouth;
  // As one stands behind it: the engine's up at the top, or out where the gas runs straight up or down.
  const steep = Math.abs(frame.out[1]) > STEEP;
  const behind = frameFacing(frame.origin, frame.out, steep ? bench.out : bench.up);
  const title = `The collector's mouth, looking upstream, ${steep ? 'out' : 'up'} at the top`;
  const half = (radius + od / 2) * scale + 2;
  const middle: SheetPoint = [x + half, y + half];
  const said: Words[] = [words(title, [x, y - 3], 4, { weight: 'bold' })];
  const drawn = slots.map((slot) => {
    const [right, up] = flatSeenFrom(behind, slot.at);
    const at: SheetPoint = [middle[0] + right * scale, middle[1] - up * scale];
    const held = primaries.find((primary) => primary.slot === slot.id);
    const size = Math.min(3.6, od * scale * 0.26);
    said.push(wordsAbout(slot.id, [at[0], at[1] + size * 0.65], size));
    if (held) said.push(wordsAbout(held.id, [at[0], at[1] - size * 0.65], size, { weight: 'bold' }));
    const colour = (held && colours.get(held.id)) ?? ink.grey;
    const wide = od * scale * 0.14;
    return `<circle cx="${mm(at[0])}" cy="${mm(at[1])}" r="${mm((od * scale - wide) / 2)}" fill="${ink.paper}" stroke="${colour}" stroke-width="${mm(wide)}"/>`;
  });
  return {
    width: Math.max(2 * half, widthOf(title, 4, 'bold')),
    height: 2 * half,
    drawn,
    words: said,
  };
}

/** The primaries: colour, slot, bends and length. */
export function primariesTable(
  { primaries }: RoutePicture,
  colours: ReadonlyMap<string, string>,
  [x, y]: SheetPoint,
): Panel {
  const head = ['', '', 'slot', 'bends', 'length'];
  const rows = primaries.map(({ id, slot, line }) => [
    '',
    id,
    slot ?? '',
    String(line.pieces.filter(({ kind }) => kind === 'bend').length),
    tidy(line.length, 1),
  ]);
  const widths = head.map((title, i) =>
    i === 0
      ? SWATCH + 3
      : 5 +
        Math.max(...[title, ...rows.map((row) => row[i] ?? '')].map((text) => widthOf(text, TEXT, 'bold'))),
  );
  const from = (column: number): number => x + widths.slice(0, column).reduce((sum, each) => sum + each, 0);
  const cells = (texts: readonly string[], line: number, bold: boolean): readonly Words[] =>
    texts.map((text, i) =>
      words(text, [from(i) + 1, y + ROW * (line + 1) - 1.5], TEXT, {
        weight: bold || i === 1 ? 'bold' : 'normal',
      }),
    );
  const width = from(head.length) - x;
  return {
    width,
    height: ROW * (rows.length + 1),
    drawn: [
      drawnLine([x, y + ROW], [x + width, y + ROW], lines.rule),
      ...primaries.map(
        ({ id }, i) =>
          `<rect x="${mm(x)}" y="${mm(y + ROW * (i + 1) + 1)}" width="${SWATCH}" height="${mm(ROW - 2)}" fill="${colours.get(id) ?? ink.grey}" stroke="${ink.black}" stroke-width="0.25"/>`,
      ),
    ],
    words: [...cells(head, 0, true), ...rows.flatMap((row, i) => cells(row, i + 1, false))],
  };
}
