import { tidy } from '../base/numbers.js';
import type { Problem } from '../base/problems.js';
import { length3, type Vector } from '../base/vectors.js';
import type { Job, KeepOut } from '../job/job.js';

/** A keep-out's file as read: the box about it in the engine's frame (mm), its triangles, and its open edges. */
export interface FileSeen {
  readonly box: { readonly from: Vector; readonly to: Vector };
  readonly triangles: number;
  readonly openEdges: number;
}

/** Nothing that is kept clear of is smaller or larger than that (mm): a bolt's head, a lorry. */
const SMALLEST = 8;
const LARGEST = 15_000;
/** Reach of a primary where the job does not give a length, mm. */
const USUAL_LENGTH = 1500;

/** What is odd about a keep-out that came from a file: its size, its place, its holes. */
export function keepOutRemarks(job: Job, keepOut: KeepOut, seen: FileSeen): readonly Problem[] {
  const { shape, path, name } = keepOut;
  if (!('file' in shape)) return [];
  const place = { path: `${path}.${shape.kind}` };
  const { from, to } = seen.box;
  const size = [0, 1, 2].map((i) => (to[i] as number) - (from[i] as number));
  const long = Math.max(...size);
  const problems: Problem[] = [];
  if (long < SMALLEST || long > LARGEST) {
    // STEP tells its unit: only its scale can be wrong.
    const fix =
      shape.kind === 'step'
        ? 'export it again at its true size'
        : long < SMALLEST
          ? 'write file_unit: m (or in), as the program that made it writes'
          : 'write file_unit: mm, as the program that made it writes';
    problems.push({
      code: 'keep-out/unit',
      severity: 'warning',
      what: `${name} (${shape.file}) comes out ${size.map((one) => tidy(one, 1)).join(' x ')} mm large; ${SMALLEST} to ${LARGEST} mm is usual`,
      why: 'in the wrong unit it keeps nothing clear where the thing stands',
      fix,
      place,
    });
  }
  // A tube of a length strays from its ends by no more than half of that.
  const reach = (job.length?.to ?? USUAL_LENGTH) / 2;
  const away = apart(seen.box, boxAbout(endsOf(job)));
  if (away > reach)
    problems.push({
      code: 'keep-out/far-off',
      severity: 'warning',
      what: `${name} (${shape.file}) lies ${tidy(away, 0)} mm from ports and collector, where no tube of ${tidy(2 * reach, 0)} mm comes`,
      why: "a file whose frame is not the engine's keeps the wrong place clear, and the right one not",
      fix: 'give 3 or more points under matched:, each with in_file: and at:',
      place,
    });
  if (seen.openEdges > 0)
    problems.push({
      code: 'keep-out/open',
      severity: 'note',
      what: `${name} (${shape.file}) is not closed: ${seen.openEdges} open edges in ${seen.triangles} triangles`,
      why: 'it is kept clear of as a sheet without thickness, and where it has a hole, nothing is',
      fix: 'look at its holes; where something is missing, stand a box or capsule there: 1 line in keep_outs',
      place,
    });
  return problems;
}

const endsOf = (job: Job): readonly Vector[] => [
  ...job.ports.map(({ at }) => at),
  ...(job.collector ? [job.collector.at] : []),
];

function boxAbout(points: readonly Vector[]): FileSeen['box'] {
  const of = (pick: (...values: number[]) => number): Vector => {
    const along = (i: 0 | 1 | 2): number => pick(...points.map((p) => p[i]));
    return [along(0), along(1), along(2)];
  };
  return { from: of(Math.min), to: of(Math.max) };
}

/** Between two boxes, mm; 0 where they touch. */
function apart(a: FileSeen['box'], b: FileSeen['box']): number {
  const gap = (i: 0 | 1 | 2): number => Math.max(0, a.from[i] - b.to[i], b.from[i] - a.to[i]);
  return length3([gap(0), gap(1), gap(2)]);
}
