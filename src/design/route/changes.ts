import { tolerance } from '../../base/tolerance.js';
import { distance3 } from '../../base/vectors.js';
import type { CentreLine } from '../../geom/centre-line.js';
import type { Rack } from '../../job/rack.js';
import { fewestWelds } from '../pieces/fewest-welds.js';
import { cuttingRules } from '../pieces/rules.js';
import { linesOfRecord, rowsOfRecord } from './frozen.js';
import type { PrimaryRecord, RouteRecord } from './record.js';

/** How a primary's new route differs from the one before. */
export interface RouteChange {
  readonly id: string;
  /** The two run the same way for so long, mm from the flange; Infinity where nothing has changed. */
  readonly sameFor: number;
  readonly slots: readonly [before: string, after: string];
  readonly lengths: readonly [before: number, after: number];
  /** Welds from the rack, as many as there are pieces; undefined where it cannot be cut from it. */
  readonly welds: readonly [before: number | undefined, after: number | undefined];
}

/**
 * What changed between two records of one job, by primary: for whoever has cut tubes already. Pieces that
 * lie wholly within `sameFor` can be used as they are.
 */
export function changesBetween(before: RouteRecord, after: RouteRecord, rack: Rack): readonly RouteChange[] {
  const rules = cuttingRules(rack);
  const [old, now] = [linesOfRecord(before), linesOfRecord(after)];
  const weldsOf = ({ rows }: PrimaryRecord): number | undefined =>
    fewestWelds(rowsOfRecord(rows), rules)?.welds;
  return after.primaries.flatMap((primary): RouteChange[] => {
    const { id } = primary;
    const was = before.primaries.find((each) => each.id === id);
    const [a, b] = [old.get(id), now.get(id)];
    if (was === undefined || a === undefined || b === undefined) return [];
    return [
      {
        id,
        sameFor: (primary.built?.length ?? 0) + commonLength(a, b, was, primary),
        slots: [was.slot, primary.slot],
        lengths: [was.length, primary.length],
        welds: [weldsOf(was), weldsOf(primary)],
      },
    ];
  });
}

/** Step (mm) of the look along two lines, and how far apart (mm) they may be and still be the same tube. */
const STEP = 0.5;

/** How long two lines run the same way; a tail is held against the rest of the line it was cut from. */
function commonLength(a: CentreLine, b: CentreLine, was: PrimaryRecord, is: PrimaryRecord): number {
  const skip = (is.built?.length ?? 0) - (was.built?.length ?? 0);
  if (skip < 0) return 0;
  const most = Math.min(a.length - skip, b.length);
  let same = 0;
  for (let s = 0; s <= most; s += STEP) {
    const [p, q] = [a.poseAt(Math.min(a.length, skip + s)), b.poseAt(s)];
    if (distance3(p.at, q.at) > tolerance.shop) return same;
    same = s;
  }
  const ends = Math.abs(a.length - skip - b.length) < tolerance.shop;
  return ends ? Infinity : most;
}
