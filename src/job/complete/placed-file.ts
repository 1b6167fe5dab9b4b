import { tidy } from '../../base/numbers.js';
import { cross3, distance3, length3, scale, subtract, type Vector } from '../../base/vectors.js';
import { atRest, rigidFit, type Motion } from '../../geom/rigid-fit.js';
import type { KeepOutShape } from '../job.js';
import type { Reading } from '../reading.js';
import { fileUnits, type FileUnit } from '../tables/file-units.js';

/** A point found both in a file and on the engine. */
interface Matched {
  readonly in_file: readonly [number, number, number];
  readonly at: Vector;
}

/** What a keep-out says about its file. */
interface WrittenFile {
  readonly file_unit?: FileUnit | undefined;
  readonly matched?: readonly Matched[] | undefined;
}

/** Points of a triangle flatter than this (mm, and as a part of its length) leave the file free to roll. */
const FLATTEST = 10;
const FLATTEST_PART = 0.02;
/** Misfits (mm): told from here on, as two tapes differ by less; refused from there on. Common practice. */
const MISFIT = 2;
const WORST_MISFIT = 10;
/** A size that differs by more than this part is another unit or another point. */
const SIZE_PART = 0.05;

/** A mesh or STEP file as a body, with its unit and its place; undefined where its points do not fit. */
export function fileBody(
  kind: 'mesh' | 'step',
  file: string,
  written: WrittenFile,
  path: string,
  reading: Reading,
): KeepOutShape | undefined {
  if (kind === 'step' && written.file_unit !== undefined)
    reading.error('job/contradiction', `${path}.file_unit`, {
      what: `${path}.file_unit is given for a STEP file`,
      why: 'a STEP file tells its own unit, and two could differ',
      fix: 'leave file_unit out; numbers in_file are then mm',
    });
  const unit = kind === 'step' ? 1 : fileUnits[reading.word(`${path}.file_unit`, written.file_unit, 'mm')];
  const motion = motionOf(written.matched, unit, path, reading);
  return motion && { kind, file, unit, motion };
}

/** The motion from a file's frame (in mm) into the engine's. */
function motionOf(
  matched: readonly Matched[] | undefined,
  unit: number,
  path: string,
  reading: Reading,
): Motion | undefined {
  if (matched === undefined) return atRest;
  const at = `${path}.matched`;
  const inFile = matched.map((one) => scale(one.in_file, unit));
  const onEngine = matched.map((one) => one.at);
  for (const [points, where] of [
    [onEngine, 'on the engine'],
    [inFile, 'in the file'],
  ] as const) {
    const { long, high } = triangleIn(points);
    if (high >= Math.max(where === 'in the file' ? 0 : FLATTEST, FLATTEST_PART * long) && long > 0) continue;
    reading.error('keep-out/matched', at, {
      what: `the ${points.length} points of ${at} lie in one line ${where}: the one furthest off it by ${tidy(high, 2)} mm, over ${tidy(long, 1)} mm`,
      why: 'a thing held at points in one line can still roll about that line',
      fix: `give a point well off that line, by ${tidy(Math.max(FLATTEST, long / 3), 0)} mm or more`,
    });
    return undefined;
  }
  const { motion, ratio, misses } = rigidFit(inFile, onEngine);
  if (Math.abs(ratio - 1) > SIZE_PART) {
    const likely = Object.entries(fileUnits).find(
      ([, size]) => Math.abs((ratio * unit) / size - 1) < SIZE_PART,
    )?.[0];
    reading.error('keep-out/matched', at, {
      what: `the points of ${at} lie ${tidy(ratio, 3)} times as far from each other on the engine as in the file`,
      why: 'a keep-out of the wrong size keeps nothing clear',
      fix:
        likely === undefined
          ? 'pick and measure the points again, or scale the scan by a length that you know'
          : `write file_unit: ${likely}`,
    });
    return undefined;
  }
  const worst = Math.max(...misses);
  if (worst <= MISFIT) return motion;
  const told = {
    what: `the points of ${at} miss their places by ${misses.map((miss) => tidy(miss, 1)).join(', ')} mm when all are fitted as well as can be`,
    why: 'the whole file then stands askew by about as much',
    fix: `pick and measure the points again: 1 wrong one makes all miss; until then ask ${tidy(Math.ceil(worst), 0)} mm more clearance`,
  };
  if (worst > WORST_MISFIT) {
    reading.error('keep-out/matched', at, told);
    return undefined;
  }
  reading.warn('keep-out/matched', at, told);
  return motion;
}

/** The longest way between any two points, and how far the others stand off the line through those two. */
function triangleIn(points: readonly Vector[]): { readonly long: number; readonly high: number } {
  let [long, ends] = [0, [points[0], points[0]] as [Vector, Vector]];
  for (const a of points)
    for (const b of points) if (distance3(a, b) > long) [long, ends] = [distance3(a, b), [a, b]];
  const along = subtract(ends[1], ends[0]);
  const off = points.map((p) => length3(cross3(subtract(p, ends[0]), along)) / (long || 1));
  return { long, high: Math.max(...off) };
}
