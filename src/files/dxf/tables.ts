import { MODEL, PAPER } from './blocks.js';
import type { Layer } from './drawing.js';
import { coordinate, type Groups } from './groups.js';
import type { Extents } from './header.js';

/**
 * The TABLES section. R12 wants few tables; R2000 wants them all, each with its handle and its owner.
 * Their handles, below 100 hexadecimal, are fixed.
 */
export function putTables(groups: Groups, layers: readonly Layer[], extents: Extents, modern: boolean): void {
  const { put } = groups;
  const table = (name: string, handle: string, count: number, rows: () => void): void => {
    put(0, 'TABLE');
    put(2, name);
    if (modern) {
      put(5, handle);
      put(330, 0);
      put(100, 'AcDbSymbolTable');
    }
    put(70, count);
    if (modern && name === 'DIMSTYLE') {
      put(100, 'AcDbDimStyleTable');
      put(71, 0);
    }
    rows();
    put(0, 'ENDTAB');
  };
  const row = (kind: string, owner: string, subclass: string, name: string, handle?: string): void => {
    put(0, kind);
    if (modern) {
      put(kind === 'DIMSTYLE' ? 105 : 5, handle ?? groups.handle());
      put(330, owner);
      put(100, 'AcDbSymbolTableRecord');
      put(100, subclass);
    }
    put(2, name);
    if (kind !== 'BLOCK_RECORD') put(70, 0);
  };
  const solid = modern ? 'Continuous' : 'CONTINUOUS';

  put(0, 'SECTION');
  put(2, 'TABLES');
  table('VPORT', '8', 1, () => {
    row('VPORT', '8', 'AcDbViewportTableRecord', '*ACTIVE');
    putView(groups, extents);
  });
  table('LTYPE', '5', modern ? 3 : 1, () => {
    const lineType = (name: string, says: string): void => {
      row('LTYPE', '5', 'AcDbLinetypeTableRecord', name);
      put(3, says);
      put(72, 65);
      put(73, 0);
      put(40, '0.0');
    };
    if (modern) {
      lineType('ByBlock', '');
      lineType('ByLayer', '');
    }
    lineType(solid, 'Solid line');
  });
  table('LAYER', '2', layers.length + 1, () => {
    for (const { name, colour } of [{ name: '0', colour: 7 }, ...layers]) {
      row('LAYER', '2', 'AcDbLayerTableRecord', name);
      put(62, colour);
      put(6, solid);
      if (modern) {
        put(370, -3);
        put(390, 'F');
      }
    }
  });
  table('STYLE', '3', 1, () => {
    row('STYLE', '3', 'AcDbTextStyleTableRecord', 'Standard');
    put(40, '0.0');
    put(41, '1.0');
    put(50, '0.0');
    put(71, 0);
    put(42, '2.5');
    put(3, 'txt');
    put(4, '');
  });
  table('VIEW', '6', 0, () => {});
  table('UCS', '7', 0, () => {});
  table('APPID', '9', 1, () => row('APPID', '9', 'AcDbRegAppTableRecord', 'ACAD'));
  if (modern) {
    table('DIMSTYLE', 'A', 1, () => row('DIMSTYLE', 'A', 'AcDbDimStyleTableRecord', 'Standard', '27'));
    table('BLOCK_RECORD', '1', 2, () => {
      row('BLOCK_RECORD', '1', 'AcDbBlockTableRecord', '*Model_Space', MODEL);
      row('BLOCK_RECORD', '1', 'AcDbBlockTableRecord', '*Paper_Space', PAPER);
    });
  }
  put(0, 'ENDSEC');
}

/** What the screen shows when the file is opened: the whole drawing and a little round it. */
function putView({ put, place }: Groups, { least, most }: Extents): void {
  const pairs: readonly [number, number, number][] = [
    [10, 0, 0],
    [11, 1, 1],
    [12, (least[0] + most[0]) / 2, (least[1] + most[1]) / 2],
    [13, 0, 0],
    [14, 10, 10],
    [15, 10, 10],
  ];
  for (const [code, x, y] of pairs) place(code, x, y, 'flat');
  put(16, '0.0');
  put(26, '0.0');
  put(36, '1.0');
  place(17, 0, 0);
  const height = Math.max(most[1] - least[1], (most[0] - least[0]) / 1.5, 1);
  put(40, coordinate(height * 1.2));
  put(41, '1.5');
  put(42, '50.0');
  for (const code of [43, 44, 50, 51]) put(code, '0.0');
  for (const [code, value] of [
    [71, 0],
    [72, 100],
    [73, 1],
    [74, 3],
    [75, 0],
    [76, 0],
    [77, 0],
    [78, 0],
  ] as const)
    put(code, value);
}
