import { existsSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { Refusal, type Outcome, type Problem } from '../base/problems.js';
import { keepOutRemarks } from '../design/keep-out-remarks.js';
import { moved } from '../geom/rigid-fit.js';
import { boxOfTriangles, openEdgesOf } from '../geom/triangles.js';
import type { Job, KeepOut, KeepOutShape } from '../job/job.js';
import { readStlCorners } from '../read/stl.js';
import type { KeepOutMesh } from './keep-out-fields.js';

type FileShape = Extract<KeepOutShape, { readonly file: string }>;

/** Larger files (bytes) are not read: a text STL of as many triangles as are read has less. */
const LARGEST = 800_000_000;
/** Further from the origin (mm) than any engine is long, a mesh is not in its frame, nor its unit right. */
const FURTHEST = 1e6;

/**
 * Reads the files that a job's keep-outs are given as, from beside the job, into the engine's frame. All
 * problems are gathered, each at the keep-out's key. The kernel is opened only for a STEP file.
 */
export async function readKeepOutFiles(
  job: Job,
  file: string,
): Promise<{
  readonly meshes: readonly KeepOutMesh[];
  readonly problems: readonly Problem[];
}> {
  const meshes: KeepOutMesh[] = [];
  const problems: Problem[] = [];
  for (const keepOut of job.keepOuts) {
    if (!('file' in keepOut.shape)) continue;
    const read = await readOne(job, keepOut, keepOut.shape, path.dirname(file));
    problems.push(...read.problems);
    if (read.value !== undefined) meshes.push(read.value);
  }
  return { meshes, problems };
}

async function readOne(
  job: Job,
  keepOut: KeepOut,
  shape: FileShape,
  folder: string,
): Promise<Outcome<KeepOutMesh>> {
  const place = { path: `${keepOut.path}.${shape.kind}` };
  const refused = (problems: readonly Problem[]): Outcome<KeepOutMesh> => ({
    value: undefined,
    problems: problems.map((problem) => ({ ...problem, place })),
  });
  const bytes = bytesOf(path.resolve(folder, shape.file), shape.file);
  if (!(bytes instanceof Uint8Array)) return refused([bytes]);
  const read = shape.kind === 'mesh' ? readStlCorners(bytes, shape.file) : await fromStep(bytes, shape.file);
  if (read.value === undefined) return refused(read.problems);
  const [corners, standOff] =
    read.value instanceof Float64Array ? [read.value, 0] : [read.value.triangles, read.value.standOff];
  // In memory that a thread of its own can share.
  const triangles = new Float64Array(new SharedArrayBuffer(corners.byteLength));
  for (let i = 0; i < corners.length; i += 3) {
    const [x, y, z] = [corners[i], corners[i + 1], corners[i + 2]] as [number, number, number];
    triangles.set(moved(shape.motion, [x * shape.unit, y * shape.unit, z * shape.unit]), i);
  }
  const box = boxOfTriangles(triangles);
  const furthest = Math.max(...box.from.map(Math.abs), ...box.to.map(Math.abs));
  if (furthest > FURTHEST) return refused([outOfAllBounds(shape, furthest)]);
  const openEdges = openEdgesOf(triangles);
  const seen = { box, triangles: triangles.length / 9, openEdges };
  return {
    value: { path: keepOut.path, triangles, closed: openEdges === 0, standOff },
    problems: keepOutRemarks(job, keepOut, seen),
  };
}

/** The bytes of a file, or why there are none. */
function bytesOf(place: string, name: string): Uint8Array | Problem {
  const problem = (what: string, fix: string): Problem => ({
    code: 'keep-out/no-file',
    severity: 'error',
    what,
    why: 'tubes routed as if it were not there would run into it',
    fix,
  });
  if (!existsSync(place))
    return problem(
      `there is no file ${name} beside the job`,
      'copy it there, correct its name, or take this 1 keep-out out',
    );
  const found = statSync(place);
  if (found.isDirectory()) return problem(`${name} is a folder`, 'name 1 file in it');
  if (!found.isFile()) return problem(`${name} is no ordinary file`, 'name 1 STL or STEP file');
  const { size } = found;
  if (size > LARGEST)
    return problem(
      `${name} holds ${Math.round(size / 1e6)} MB; at most ${LARGEST / 1e6} MB are read`,
      'thin it out in the scan program, to 200000 triangles or fewer',
    );
  try {
    return readFileSync(place);
  } catch (reason) {
    const why = (reason as NodeJS.ErrnoException).code ?? 'unknown reason';
    return problem(`${name} cannot be read (${why})`, 'give yourself the right to read this 1 file');
  }
}

async function fromStep(
  bytes: Uint8Array,
  name: string,
): Promise<Outcome<{ readonly triangles: Float64Array; readonly standOff: number }>> {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  if (!start.trimStart().startsWith('ISO-10303-21'))
    return {
      value: undefined,
      problems: [
        {
          code: 'keep-out/unreadable',
          severity: 'error',
          what: `${name} does not begin as a STEP file does, with ISO-10303-21`,
          why: 'what cannot be read cannot be kept clear of',
          fix: /\.stl$/i.test(name)
            ? `write mesh: ${name} instead of step:`
            : 'export it again as STEP, AP214 or AP242',
        },
      ],
    };
  const { meshOfStep, openKernel } = await import('../solid/index.js');
  try {
    return { value: meshOfStep(await openKernel(), bytes, name), problems: [] };
  } catch (reason) {
    if (!(reason instanceof Refusal)) throw reason;
    return { value: undefined, problems: reason.problems };
  }
}

const outOfAllBounds = ({ file, kind }: FileShape, furthest: number): Problem => ({
  code: 'keep-out/unit',
  severity: 'error',
  what: `${file} reaches ${Math.round(furthest / 1000)} m from the centre of port 1; at most ${FURTHEST / 1e6} km is read`,
  why: 'in the wrong unit it keeps nothing clear where the thing stands',
  fix:
    kind === 'mesh'
      ? 'write file_unit: mm, or give 3 points under matched:'
      : 'give 3 points under matched:, with in_file in mm',
});
