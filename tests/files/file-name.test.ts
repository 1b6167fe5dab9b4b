import { expect, test } from 'vitest';
import { fileName } from '../../src/files/file-name.js';
import { roundedBox, samplePlate } from './sample-plate.js';

test('a cut file is named after its size rounded up, its thickness and its unit', () => {
  const part = { ...samplePlate, outline: roundedBox(333.2, 86.4, 12), thickness: 10 };
  expect(fileName(part, 'dxf')).toBe('flange_334x87x10-mm.dxf');
  expect(fileName({ ...part, thickness: 9.5 }, 'dxf')).toBe('flange_334x87x9.5-mm.dxf');
});

test('a size that is whole but for the noise of the arithmetic is not rounded up', () => {
  const part = { ...samplePlate, outline: roundedBox(334 + 1e-9, 87 + 1e-9, 12) };
  expect(fileName(part, 'dxf')).toBe('flange_334x87x10-mm.dxf');
});

test('in inches the size goes up to a tenth: 334 x 87 x 9.525 mm is 13.2 x 3.5 x 0.375 in', () => {
  const part = { ...samplePlate, outline: roundedBox(334, 87, 12), thickness: 9.525 };
  expect(fileName(part, 'dxf', 'in')).toBe('flange_13.2x3.5x0.375-in.dxf');
});

test('other files carry the name of the part alone', () => {
  expect(fileName(samplePlate, 'step')).toBe('flange.step');
  expect(fileName(samplePlate, 'svg')).toBe('flange.svg');
});
