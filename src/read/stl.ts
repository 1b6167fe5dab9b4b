import type { Outcome, Problem } from '../base/problems.js';

const HEADER = 80;
const TRIANGLE = 50;

/** More triangles (a scan thinned to a millimetre or two has a tenth of it) only cost time and memory. */
export const MOST_TRIANGLES = 2_000_000;

type Fault = Pick<Problem, 'what' | 'why' | 'fix'> & {
  readonly code: 'keep-out/unreadable' | 'keep-out/too-fine';
};

const again = 'export it again as STL, binary or text, and copy it whole';

/** How many triangles a binary STL file says it holds; NaN for a file too short to say. */
const countIn = (bytes: Uint8Array): number =>
  bytes.length < HEADER + 4
    ? NaN
    : new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(HEADER, true);

/**
 * The corners in a binary STL file, nine numbers a triangle, in the file's unit.
 * @see STL, stereolithography interface specification (3D Systems, 1988), from memory: little-endian, 80 bytes,
 *   a count, then normal, three corners and two unused bytes a triangle
 * @returns undefined where the length does not fit the count
 */
export function cornersInBinaryStl(bytes: Uint8Array): Float64Array | undefined {
  const count = countIn(bytes);
  if (bytes.length !== HEADER + 4 + TRIANGLE * count) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const corners = new Float64Array(9 * count);
  for (let triangle = 0; triangle < count; triangle++) {
    const at = HEADER + 4 + TRIANGLE * triangle + 12;
    for (let i = 0; i < 9; i++) corners[9 * triangle + i] = view.getFloat32(at + 4 * i, true);
  }
  return corners;
}

/**
 * Reads an STL file, binary or text: nine numbers a triangle, in the file's unit, which it does not tell.
 * @param name of the file, for messages
 */
export function readStlCorners(bytes: Uint8Array, name: string): Outcome<Float64Array> {
  const told = faultOrCorners(bytes, name);
  if (told instanceof Float64Array) return { value: told, problems: [] };
  return { value: undefined, problems: [{ severity: 'error', ...told }] };
}

function faultOrCorners(bytes: Uint8Array, name: string): Float64Array | Fault {
  const fault = (what: string, fix = again): Fault => ({
    code: 'keep-out/unreadable',
    what: `${name} ${what}`,
    why: 'what is missing of it would not be kept clear of',
    fix,
  });
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 1024));
  const count = countIn(bytes);
  const fits = bytes.length === HEADER + 4 + TRIANGLE * count;
  if (!fits && start.startsWith('ISO-10303'))
    return fault('is a STEP file', `write step: ${name} instead of mesh:`);
  const isText = !fits && /^\s*solid\b/i.test(start) && !start.includes('\0');
  if (!fits && !isText)
    return fault(
      Number.isNaN(count)
        ? `holds ${bytes.length} bytes; the shortest STL file has ${HEADER + 4 + TRIANGLE}`
        : `is cut short or no STL file: ${bytes.length} bytes, where its count of ${count} triangles takes ${HEADER + 4 + TRIANGLE * count}`,
    );
  if (fits && count > MOST_TRIANGLES) return tooFine(name, count);
  const corners = isText ? cornersInText(bytes) : (cornersInBinaryStl(bytes) ?? new Float64Array());
  if (typeof corners === 'string') return fault(corners);
  if (corners.length === 0) return fault('holds no triangle');
  if (corners.length / 9 > MOST_TRIANGLES) return tooFine(name, corners.length / 9);
  const bad = corners.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0)
    return fault(
      `has a corner that is no number: triangle ${Math.floor(bad / 9) + 1} of ${corners.length / 9}`,
    );
  return corners;
}

const tooFine = (name: string, count: number): Fault => ({
  code: 'keep-out/too-fine',
  what: `${name} holds ${count} triangles; at most ${MOST_TRIANGLES} are read`,
  why: 'a tube is kept millimetres clear: finer than that only costs time and memory',
  fix: 'thin it out in the scan program, to 200000 triangles or fewer',
});

/** The corners in a text STL file, or what is wrong with it. */
function cornersInText(bytes: Uint8Array): Float64Array | string {
  let found = new Float64Array(9 * 1024);
  let held = 0;
  let since = 0;
  let ended = false;
  // Piece by piece, cut at line ends: one string of a great file would be too long.
  const decoder = new TextDecoder('latin1');
  const PIECE = 1 << 24;
  for (let from = 0; from < bytes.length;) {
    let to = Math.min(bytes.length, from + PIECE);
    if (to < bytes.length) to = bytes.lastIndexOf(10, to) > from ? bytes.lastIndexOf(10, to) + 1 : to;
    const text = decoder.decode(bytes.subarray(from, to));
    from = to;
    for (const [word, x, y, z] of text.matchAll(
      /\bvertex\s+(\S+)\s+(\S+)\s+(\S+)|\bendloop\b|^\s*facet\b|^\s*endsolid\b/gim,
    )) {
      if (x !== undefined) {
        if (held + 3 > found.length) {
          const larger = new Float64Array(2 * found.length);
          larger.set(found);
          found = larger;
        }
        for (const value of [x, y, z]) found[held++] = Number(value);
        since++;
      } else if (/endloop/i.test(word)) {
        if (since !== 3)
          return `has a facet of ${since} corners, number ${Math.ceil(held / 9)}; a triangle has 3`;
        since = 0;
      } else ended = /endsolid/i.test(word);
      if (held > 9 * (MOST_TRIANGLES + 1)) break;
    }
  }
  if (held > 9 * MOST_TRIANGLES) return found.slice(0, 9 * (MOST_TRIANGLES + 1));
  if (held > 0 && (!ended || since !== 0))
    return `is cut short: it does not end with endsolid, after ${Math.floor(held / 9)} triangles`;
  return found.slice(0, held);
}
