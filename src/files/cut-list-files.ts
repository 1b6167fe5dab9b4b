import { degrees } from '../base/numbers.js';
import { bendTableOf, cutListRecord, type CutFigures, type CutList } from '../design/pieces/index.js';
import type { CentreLineRow } from '../geom/centre-line.js';
import type { ShopSpec } from '../job/shop.js';
import { writeCsv, type Cell } from './csv.js';
import { figuresRecord, weldsCsv } from './cut-figures-files.js';
import { piecesCsv } from './pieces-csv.js';

/** A record that is no part: its name and text. */
export interface RecordFile {
  readonly path: string;
  readonly bytes: string;
}

/** The cut list as files: a record for other programs, and tables for the bench and the order. */
export function cutListFiles(
  list: CutList,
  figures: CutFigures,
  shop: ShopSpec,
  rows: ReadonlyMap<string, readonly CentreLineRow[]>,
): readonly RecordFile[] {
  const record = { ...cutListRecord(list), ...figuresRecord(figures, shop) };
  return [
    { path: 'cut-list.json', bytes: JSON.stringify(record, null, 2) + '\n' },
    { path: 'cut-list.csv', bytes: piecesCsv(list, shop.tape) },
    { path: 'weld-table.csv', bytes: weldsCsv(list, figures, shop) },
    { path: 'buy-list.csv', bytes: buyCsv(list) },
    { path: 'bend-table.csv', bytes: bendCsv(rows) },
  ];
}

const buyCsv = (list: CutList): string =>
  writeCsv(
    ['rack', 'what', 'count', 'price each', 'price'],
    list.buy.map(({ rack, count, price }) => {
      const item = list.stock.find((each) => each.rack === rack);
      const what =
        item?.kind === 'bend'
          ? `bend CLR ${item.clr} ${degrees(item.angle).toFixed(1)} deg`
          : `straight ${item?.length ?? ''} mm`;
      return [rack, what, count, price, count * price];
    }),
  );

/** Length, rotation and angle per bend, as a bender is set: one line a bend, the tail on a line of its own. */
const bendCsv = (routes: ReadonlyMap<string, readonly CentreLineRow[]>): string =>
  writeCsv(
    ['primary', 'bend', 'length mm', 'rotation deg', 'angle deg', 'CLR mm'],
    [...routes].flatMap(([id, rows]): Cell[][] => {
      const table = bendTableOf(rows);
      return [
        ...table.rows.map((row, i) => [
          id,
          i + 1,
          row.length,
          degrees(row.rotation),
          degrees(row.angle),
          row.clr,
        ]),
        [id, 'tail', table.tail, undefined, undefined, undefined],
      ];
    }),
  );
