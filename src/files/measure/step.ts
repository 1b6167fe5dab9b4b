import { distance3, type Vector } from '../../base/vectors.js';
import { tolerance } from '../../base/tolerance.js';
import type { Part, PlatePart } from '../../design/parts.js';
import type { Solid, StepReading, StepSolid } from '../../solid/index.js';
import { startGauge, type Gauge, type Measure } from './measure.js';

const reader = 'the kernel, STEP read back';

/**
 * Measures a written STEP file as read back, against the solid it was written from and the part it shows:
 * one valid solid of the same volume and size, bearing the part's name, and for a plate every round hole.
 */
export function measureStep(part: Part, solid: Solid, reading: StepReading): readonly Measure[] {
  const gauge = startGauge(part.name, reader);
  gauge.count('solids', 1, reading.solids.length);
  const found = reading.solids[0];
  if (found === undefined) return gauge.measures;
  gauge.word('name', part.name, found.name ?? 'none');
  gauge.word('solid', 'valid', found.valid ? 'valid' : 'broken');
  gauge.size('volume', solid.volume, found.volume, 'mm3', solid.volume * tolerance.volume);
  const corners = (box: Solid['bounds']): readonly Vector[] => [box.low, box.high];
  const off = corners(solid.bounds).map((corner, i) =>
    distance3(corner, corners(found.bounds)[i] ?? [NaN, 0, 0]),
  );
  gauge.atMost('corners of its box, off by', 0, Math.max(...off), 'mm', tolerance.file);
  if (part.kind === 'plate') measureHoles(gauge, part, found);
  return gauge.measures;
}

/** Each round hole of the plate is looked for where it was asked; none may be missing or of another size. */
function measureHoles(gauge: Gauge, part: PlatePart, found: StepSolid): void {
  for (const hole of part.holes) {
    const near = found.holes
      .map((each) => ({ each, off: Math.hypot(each.at[0] - hole.at[0], each.at[1] - hole.at[1]) }))
      .sort((a, b) => a.off - b.off)[0];
    gauge.size(
      `hole ${hole.name}, diameter`,
      hole.diameter,
      near?.each.diameter ?? NaN,
      'mm',
      tolerance.file,
    );
    gauge.atMost(`hole ${hole.name}, centre off by`, 0, near?.off ?? NaN, 'mm', tolerance.file);
    gauge.size(`hole ${hole.name}, depth`, part.thickness, near?.each.depth ?? NaN, 'mm', tolerance.file);
  }
}

/** What was proved of a solid when it was made, as rows of the manifest. */
export const provedMeasures = (part: Part, solid: Solid): readonly Measure[] =>
  solid.measures.map((measure) => ({ part: part.name, reader: 'the kernel, solid as made', ...measure }));
