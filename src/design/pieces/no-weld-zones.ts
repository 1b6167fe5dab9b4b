import { cosSin, tidy } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import type { CentreLine } from '../../geom/centre-line.js';
import { leastDistanceTo, packSolids } from '../../geom/solids.js';
import type { Job } from '../../job/job.js';
import { standAt } from '../cradle-place.js';
import { baseFrame } from '../cradle-pose.js';
import type { JobToCut } from './primaries-to-cut.js';
import { wrenchSpaces } from '../route/wrench-space.js';

/** A stretch of a primary in which no weld is planned, and what lies there. Stations in mm along its line. */
export interface NoWeldZone {
  readonly from: number;
  readonly to: number;
  /** As messages call it: `wrench space of stud 2`, `a cradle at 165`. */
  readonly what: string;
  /** The key that would free it. */
  readonly path: string;
}

/** Step of the walk along a primary, mm; the ends of what it finds are then halved down to `samePoint`. */
const STEP = 0.5;

/**
 * Where a primary may not be welded for what stands about it: nearer to a wrench's room than a bead stands
 * proud, as the socket would then jam on it, and under the saddle of a cradle whose place the job gives, as
 * its seam could be neither seen nor reached. Cradles that the program places come after the welds, and
 * sleeves of slip joints are seen to where primaries are made ready for cutting.
 */
export const noWeldZones = (job: JobToCut, id: string, line: CentreLine): readonly NoWeldZone[] =>
  [...wrenchZones(job, line), ...saddleZones(job, id, line)].sort((a, b) => a.from - b.from);

/** Stretches where a weld's ring may come too near to a tool: the ball about the ring is what is measured. */
function wrenchZones(job: Job, line: CentreLine): NoWeldZone[] {
  const keep = (job.tube?.od ?? 0) / 2 + job.shop.weldOffWrench;
  return wrenchSpaces(job).flatMap(({ name, path, solid }): NoWeldZone[] => {
    const set = packSolids([{ solid, clear: keep }]);
    const near = (station: number): boolean =>
      leastDistanceTo(set, ...line.poseAt(station).at) < -tolerance.samePoint;
    return stretchesOf(near, line.length).map(([from, to]) => ({ from, to, what: name, path: path ?? '' }));
  });
}

/** Stretches of stations for which something holds, their ends sharp. */
function stretchesOf(holds: (station: number) => boolean, length: number): [number, number][] {
  const edge = (out: number, inside: number): number => {
    let [a, b] = [out, inside];
    while (Math.abs(b - a) > tolerance.samePoint) {
      const middle = (a + b) / 2;
      if (holds(middle)) b = middle;
      else a = middle;
    }
    return a;
  };
  const found: [number, number][] = [];
  const steps = Math.ceil(length / STEP);
  let [before, began] = [0, -1];
  for (let i = 0; i <= steps; i++) {
    const station = Math.min(length, i * STEP);
    const here = holds(station);
    if (here && began < 0) began = i === 0 ? 0 : edge(before, station);
    if (!here && began >= 0) {
      found.push([began, edge(station, before)]);
      began = -1;
    }
    before = station;
  }
  if (began >= 0) found.push([began, length]);
  return found;
}

/** What the cradles cover that the job gives places for, where they come to stand. */
function saddleZones(
  { tackFixture: fixture, tube, builtParts }: JobToCut,
  id: string,
  line: CentreLine,
): NoWeldZone[] {
  if (fixture === undefined || tube === undefined || fixture.cradle.at === 'auto') return [];
  const base = baseFrame(fixture.base);
  // Places count from the flange, this line perhaps from where a part ends that stands already.
  const begins = builtParts?.[id]?.length ?? 0;
  const places = fixture.cradle.at
    .filter(({ primary }) => primary === id)
    .map(({ station, path }) => ({ station: station - begins, path }))
    .filter(({ station }) => station >= 0 && station <= line.length);
  return places.flatMap(({ station: asked, path }): NoWeldZone[] => {
    const { standing } = standAt(fixture.cradle, tube.od, base, line, asked);
    if (standing === undefined) return [];
    const half = fixture.cradle.width / 2 / cosSin(standing.pose.tilt)[0];
    const { station } = standing;
    return [
      { from: station - half, to: station + half, what: `a cradle at ${tidy(station + begins, 1)}`, path },
    ];
  });
}
