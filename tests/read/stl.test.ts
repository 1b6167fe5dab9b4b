import type { BufferGeometry } from 'three';
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { MOST_TRIANGLES, readStlCorners } from '../../src/read/stl.js';
import { binaryStl, boxSkin, capsuleSkin, flat, textStl } from '../support/meshes.js';

const skin = capsuleSkin([0, 0, 0], [40, 10, 5], 20, 6);
const text = (value: string): Uint8Array => new TextEncoder().encode(value);

/** Read by three's own loader. */
function byThree(bytes: Uint8Array): number[] {
  const geometry: BufferGeometry = new STLLoader().parse(bytes.slice().buffer);
  return Array.from(geometry.getAttribute('position').array);
}

const faultOf = (bytes: Uint8Array): string => {
  const { value, problems } = readStlCorners(bytes, 'scan.stl');
  expect(value).toBeUndefined();
  expect(problems).toHaveLength(1);
  return `${problems[0]?.code} ${problems[0]?.what} | ${problems[0]?.fix}`;
};

describe('an STL file', () => {
  it('binary and text: the corners that were written, and those that the loader of three reads', () => {
    const written = flat(skin);
    const binary = binaryStl(skin);
    const read = readStlCorners(binary, 'scan.stl').value ?? new Float64Array();
    expect([...read]).toEqual([...written].map(Math.fround));
    expect(byThree(binary)).toEqual([...read]);
    const words = text(textStl(skin));
    expect([...(readStlCorners(words, 'scan.stl').value ?? [])]).toEqual([...written]);
    expect(byThree(words)).toEqual([...written].map(Math.fround));
  });

  it('text as programs write it: capitals, tabs, carriage returns, exponents, several solids', () => {
    const one =
      'SOLID a\r\n\tFACET NORMAL 0 0 1\r\n\tOUTER LOOP\r\n\tVERTEX 0 0 -1.5e+1\r\n\tVERTEX 1 0 0\r\n\tVERTEX 0 1. 0\r\n\tENDLOOP\r\n\tENDFACET\r\nENDSOLID a\r\n';
    const { value } = readStlCorners(text(one + one), 'scan.stl');
    expect([...(value ?? [])]).toEqual([0, 0, -15, 1, 0, 0, 0, 1, 0, 0, 0, -15, 1, 0, 0, 0, 1, 0]);
    // A binary file whose header begins as a text file does is still binary.
    const binary = binaryStl(skin);
    binary.set(text('solid scan'), 0);
    expect(readStlCorners(binary, 'scan.stl').value).toHaveLength(9 * skin.length);
  });

  it('cut short, empty, of another kind, with corners that are no numbers: told, with the figure', () => {
    const binary = binaryStl(skin);
    expect(faultOf(binary.slice(0, 1000))).toMatch(
      /unreadable .*cut short.*1000 bytes, .*count of \d+ triangles takes/,
    );
    expect(faultOf(new Uint8Array([...binary, 0]))).toMatch(/unreadable .*no STL file/);
    expect(faultOf(new Uint8Array(20))).toMatch(/holds 20 bytes; the shortest STL file has 134/);
    expect(faultOf(binaryStl([]))).toMatch(/holds no triangle/);
    expect(faultOf(text('solid nothing\nendsolid nothing\n'.padEnd(200)))).toMatch(/holds no triangle/);
    const words = textStl(skin);
    expect(faultOf(text(words.slice(0, words.length / 2)))).toMatch(/cut short/);
    expect(faultOf(text(words.replace(/ {2}vertex.*\n/, '')))).toMatch(/a facet of 2 corners, number 1/);
    expect(faultOf(text(words.replace(/vertex (\S+)/, 'vertex 12,5')))).toMatch(/no number: triangle 1 of/);
    const broken = binaryStl(boxSkin([0, 0, 0], [1, 1, 1]));
    new DataView(broken.buffer, broken.byteOffset).setFloat32(84 + 50 * 7 + 12 + 8, NaN, true);
    expect(faultOf(broken)).toMatch(/no number: triangle 8 of 12/);
    expect(faultOf(text('ISO-10303-21;\nHEADER;'.padEnd(500)))).toMatch(
      /is a STEP file.*write step: scan\.stl/,
    );
    expect(faultOf(text('# a mesh of another kind\nv 0 0 0\n'.padEnd(500)))).toMatch(/no STL file/);
  });

  it('with more triangles than are of use: refused, with how many', () => {
    const many = new Uint8Array(84 + 50 * (MOST_TRIANGLES + 1));
    new DataView(many.buffer).setUint32(80, MOST_TRIANGLES + 1, true);
    expect(faultOf(many)).toMatch(/too-fine .*2000001 triangles; at most 2000000 are read/);
  });
});
