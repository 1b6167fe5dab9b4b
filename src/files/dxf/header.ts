import type { Groups } from './groups.js';

/** The least box round everything drawn, in the file's unit. */
export interface Extents {
  readonly least: readonly [number, number];
  readonly most: readonly [number, number];
}

/** What the header says of the file. */
export interface HeaderFacts {
  readonly modern: boolean;
  readonly unit: 'mm' | 'in';
  readonly extents: Extents;
  /** The first handle not yet given out. */
  readonly nextHandle: string;
}

/** The HEADER section: version, units, extents. */
export function putHeader(groups: Groups, facts: HeaderFacts): void {
  const { put, place } = groups;
  const variable = (name: string, code: number, value: string | number): void => {
    put(9, name);
    put(code, value);
  };
  const point = (name: string, at: readonly [number, number], z: 'with z' | 'flat'): void => {
    put(9, name);
    place(10, at[0], at[1], z);
  };
  put(0, 'SECTION');
  put(2, 'HEADER');
  variable('$ACADVER', 1, facts.modern ? 'AC1015' : 'AC1009');
  if (facts.modern) variable('$HANDSEED', 5, facts.nextHandle);
  point('$INSBASE', [0, 0], 'with z');
  point('$EXTMIN', facts.extents.least, 'with z');
  point('$EXTMAX', facts.extents.most, 'with z');
  point('$LIMMIN', facts.extents.least, 'flat');
  point('$LIMMAX', facts.extents.most, 'flat');
  variable('$LUNITS', 70, 2);
  variable('$LUPREC', 70, 4);
  // Neither is a variable of R12, but importers look for both there too and pass over what they do not know.
  variable('$MEASUREMENT', 70, facts.unit === 'mm' ? 1 : 0);
  variable('$INSUNITS', 70, facts.unit === 'mm' ? 4 : 1);
  put(0, 'ENDSEC');
}
