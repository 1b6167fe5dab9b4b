import { tidy } from '../base/numbers.js';
import { tolerance } from '../base/tolerance.js';
import type { Part } from '../design/parts.js';
import { boundsOf } from '../geom/loops.js';
import { inch } from './dxf/drawing.js';

export type FileEnding = 'dxf' | 'step' | 'svg' | 'stl' | '3mf';

/**
 * The name of a part's file. A cut file carries its overall size, rounded up, its thickness and its unit,
 * for a DXF read in the wrong unit is 25.4 times too large or too small and the name is what the person at
 * the table sees: `flange_334x87x10-mm.dxf`. Other files are named after the part alone: `flange.step`.
 */
export function fileName(part: Part, ending: FileEnding, unit: 'mm' | 'in' = 'mm'): string {
  if (ending !== 'dxf' || part.kind !== 'plate') return `${part.name}.${ending}`;
  const { left, right, bottom, top } = boundsOf(part.outline);
  // Inches are told to a tenth, millimetres whole.
  const upTo = (size: number): string =>
    unit === 'mm'
      ? tidy(Math.ceil(size - tolerance.file))
      : tidy(Math.ceil(((size - tolerance.file) / inch) * 10) / 10);
  const thickness = tidy(unit === 'mm' ? part.thickness : part.thickness / inch);
  return `${part.name}_${upTo(right - left)}x${upTo(top - bottom)}x${thickness}-${unit}.dxf`;
}
