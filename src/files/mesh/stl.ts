import { cross3, direction, length3, subtract, type Vector } from '../../base/vectors.js';
import { cornersInBinaryStl } from '../../read/stl.js';
import { cornerOf, trianglesOf, type Mesh } from './mesh.js';
import { joined, welded } from './weld.js';

const HEADER = 80;
const TRIANGLE = 50;

/**
 * A mesh as a binary STL file. The format knows no unit; ours are always mm, as its readers take it.
 * Coordinates are single precision, about 0.00001 mm at 100 mm.
 * @param title goes into the header's 80 bytes, shortened where it must
 * @see STL, stereolithography interface specification (3D Systems, 1988), from memory: little-endian, 80 bytes,
 *   a count, then normal, three corners and two unused bytes a triangle
 */
export function writeStl(mesh: Mesh, title: string): Uint8Array {
  const single = welded(mesh, Math.fround);
  const count = single.triangles.length / 3;
  const bytes = new Uint8Array(HEADER + 4 + TRIANGLE * count);
  const view = new DataView(bytes.buffer);
  // A header that begins with "solid" is taken for the text flavour by many readers.
  const plain = title.replace(/[^\x20-\x7e]/g, '?').replace(/^solid/i, 'the solid');
  bytes.set(new TextEncoder().encode(plain.slice(0, HEADER)));
  view.setUint32(HEADER, count, true);
  let at = HEADER + 4;
  for (const corners of trianglesOf(single)) {
    const [a, b, c] = corners.map((corner) => cornerOf(single, corner)) as [Vector, Vector, Vector];
    for (const vector of [normalOf(a, b, c), a, b, c]) {
      for (const value of vector) {
        view.setFloat32(at, value, true);
        at += 4;
      }
    }
    at += 2;
  }
  return bytes;
}

/** The direction a triangle faces; a triangle so thin that it has none gets zeros, which readers work out anew. */
function normalOf(a: Vector, b: Vector, c: Vector): Vector {
  const normal = cross3(subtract(b, a), subtract(c, a));
  return length3(normal) > 0 ? direction(normal) : [0, 0, 0];
}

/**
 * Reads a binary STL file back; corners in the same place become one.
 * By a few lines of our own and not three's loader, which costs 25 ms to load, half of what starting node does;
 * the tests read the same files with three and with admesh.
 * @throws an Error where the length does not fit the count
 */
export function readStl(bytes: Uint8Array): Mesh {
  const positions = cornersInBinaryStl(bytes);
  if (positions === undefined) throw new Error(`${bytes.length} bytes that are no whole binary STL file`);
  const triangles = Uint32Array.from({ length: positions.length / 3 }, (_, i) => i);
  return joined({ positions, triangles }, 0);
}
