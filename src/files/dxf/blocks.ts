import type { Groups } from './groups.js';

/** The handle of the model's block record: every entity of R2000 names it as its owner. */
export const MODEL = '1F';
/** The same for the sheet. */
export const PAPER = '1B';

/** The BLOCKS section: empty in R12, the two that every R2000 file has otherwise. */
export function putBlocks({ put, place }: Groups, modern: boolean): void {
  put(0, 'SECTION');
  put(2, 'BLOCKS');
  const both = [
    { name: '*Model_Space', record: MODEL, begin: '20', end: '21', paper: false },
    { name: '*Paper_Space', record: PAPER, begin: '1C', end: '1D', paper: true },
  ];
  for (const block of modern ? both : []) {
    const common = (kind: string, handle: string, subclass: string): void => {
      put(0, kind);
      put(5, handle);
      put(330, block.record);
      put(100, 'AcDbEntity');
      if (block.paper) put(67, 1);
      put(8, '0');
      put(100, subclass);
    };
    common('BLOCK', block.begin, 'AcDbBlockBegin');
    put(2, block.name);
    put(70, 0);
    place(10, 0, 0);
    put(3, block.name);
    put(1, '');
    common('ENDBLK', block.end, 'AcDbBlockEnd');
  }
  put(0, 'ENDSEC');
}

/** The OBJECTS section of R2000: the dictionaries it cannot be opened without. */
export function putObjects({ put }: Groups): void {
  const object = (kind: string, handle: string, owner: string | number, subclass?: string): void => {
    put(0, kind);
    put(5, handle);
    put(330, owner);
    if (subclass !== undefined) put(100, subclass);
  };
  const entry = (name: string, handle: string): void => {
    put(3, name);
    put(350, handle);
  };
  put(0, 'SECTION');
  put(2, 'OBJECTS');
  object('DICTIONARY', 'C', 0, 'AcDbDictionary');
  put(281, 1);
  entry('ACAD_GROUP', 'D');
  entry('ACAD_PLOTSTYLENAME', 'E');
  object('DICTIONARY', 'D', 'C', 'AcDbDictionary');
  put(281, 1);
  object('ACDBDICTIONARYWDFLT', 'E', 'C', 'AcDbDictionary');
  put(281, 1);
  entry('Normal', 'F');
  put(100, 'AcDbDictionaryWithDefault');
  put(340, 'F');
  object('ACDBPLACEHOLDER', 'F', 'E');
  put(0, 'ENDSEC');
}
