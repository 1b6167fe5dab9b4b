import { roundTo } from '../../base/numbers.js';

/** A DXF text as it grows: pairs of group code and value, a line each, and the handles given out. */
export interface Groups {
  put(code: number, value: string | number): void;
  /** A place or direction in the plane: x, y and a z of 0 (left out for LWPOLYLINE vertices). */
  place(code: number, x: number, y: number, z?: 'with z' | 'flat'): void;
  /** A handle never given out before, in hexadecimal. */
  handle(): string;
  text(): string;
}

/** Handles below this one are spoken for: they name the tables, blocks and dictionaries. */
const FIRST_HANDLE = 0x100;

/** Starts an empty DXF text. Lines end in CR LF, as the format has it. */
export function startGroups(firstHandle = FIRST_HANDLE): Groups {
  const lines: string[] = [];
  let next = firstHandle;
  const put = (code: number, value: string | number): void => {
    lines.push(String(code), String(value));
  };
  return {
    put,
    place(code, x, y, z = 'with z') {
      put(code, coordinate(x));
      put(code + 10, coordinate(y));
      if (z === 'with z') put(code + 20, '0.0');
    },
    handle: () => (next++).toString(16).toUpperCase(),
    text: () => lines.join('\r\n') + '\r\n',
  };
}

function decimal(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new Error('a DXF number that is not finite');
  const digits = roundTo(value, decimals).toFixed(decimals);
  const short = digits.replace(/0+$/, '');
  return short.endsWith('.') ? `${short}0` : short;
}

/** A coordinate as written: six decimals of the file's unit, no minus zero, always with a point. */
export const coordinate = (value: number): string => decimal(value, 6);

/** A bulge needs more digits than a coordinate: it is a slope, and scales with the arc. */
export const bulgeText = (value: number): string => decimal(value, 12);

/**
 * Centre, radius and angles (deg) of an ARC. Its ends are not written but follow from these, so three
 * more digits keep them on the neighbouring lines.
 */
export const arcText = (value: number): string => decimal(value, 9);
