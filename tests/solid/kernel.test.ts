import { spawnSync } from 'node:child_process';
import { beforeAll, describe, expect, test } from 'vitest';
import { Refusal } from '../../src/base/problems.js';
import { attempt } from '../../src/solid/attempt.js';
import { openKernel, type Kernel } from '../../src/solid/index.js';
import { prove } from '../../src/solid/prove.js';

let kernel: Kernel;
beforeAll(async () => {
  kernel = await openKernel();
});

const work = { part: 'flange', doing: 'rounding the edges', sizes: 'radius 100 mm', cure: 'radius 4 mm' };

const problemOf = (run: () => unknown): { code: string; what: string; fix: string } => {
  try {
    run();
  } catch (error) {
    if (error instanceof Refusal && error.problems[0]) return error.problems[0];
    throw error;
  }
  throw new Error('nothing was refused');
};

test('opened twice it is one kernel', async () => {
  expect(await openKernel({ longLived: true })).toBe(kernel);
});

describe('what the kernel throws becomes words', () => {
  test('a radius larger than the part', () => {
    const box = kernel.replicad.makeBox([0, 0, 0], [10, 10, 10]);
    const problem = problemOf(() => attempt(kernel, work, () => box.fillet(100)));
    expect(problem.code).toBe('solid/kernel');
    expect(problem.what).toMatch(/^flange: rounding the edges failed \(radius 100 mm\): [a-z]/);
    expect(problem.fix).toBe('radius 4 mm');
  });

  test('an edge of no length', () => {
    const { oc } = kernel;
    const problem = problemOf(() =>
      attempt(kernel, work, () => {
        const point = new oc.gp_Pnt(1, 2, 3);
        return new oc.BRepBuilderAPI_MakeEdge(point, point).Edge();
      }),
    );
    expect(problem.what).toContain('the operation came to no result [StdFail_NotDone');
  });

  test('a direction of no length', () => {
    const problem = problemOf(() => attempt(kernel, work, () => new kernel.oc.gp_Dir(0, 0, 0)));
    expect(problem.what).toContain('these figures do not make a shape');
  });

  test('a refusal from inside passes unchanged', () => {
    const inner = new Refusal([]);
    expect(() =>
      attempt(kernel, work, () => {
        throw inner;
      }),
    ).toThrow(inner);
  });
});

describe('only a proved shape leaves', () => {
  const box = (x: number): InstanceType<Kernel['oc']['TopoDS_Shape']> =>
    kernel.replicad.makeBox([x, 0, 0], [x + 10, 20, 30]).wrapped.Moved(new kernel.oc.TopLoc_Location());
  const claim = { part: 'block', volume: 6000, volumeFrom: 'a b c', cure: 'none' };

  test('a block of 10 x 20 x 30 passes with its measures', () => {
    const solid = prove(kernel, box(0), { ...claim, bounds: { low: [0, 0, 0], high: [10, 20, 30] } });
    expect(solid.volume).toBeCloseTo(6000, 8);
    expect(solid.measures.map(({ ok }) => ok)).toEqual(Array(7).fill(true));
  });

  test('a volume off by 2 parts in a million', () => {
    const problem = problemOf(() => prove(kernel, box(0), { ...claim, volume: 6000.012 }));
    expect(problem.code).toBe('solid/volume');
    expect(problem.what).toBe('block: volume against a b c: asked 6000.012 mm3, measured 6000 mm3');
  });

  test('a volume that is no number', () => {
    expect(problemOf(() => prove(kernel, box(0), { ...claim, volume: Number.NaN })).code).toBe(
      'solid/volume',
    );
  });

  test('a side off by 0.001 mm', () => {
    const bounds = { low: [0, 0, 0], high: [10, 20.001, 30] } as const;
    const problem = problemOf(() => prove(kernel, box(0), { ...claim, bounds }));
    expect(problem.code).toBe('solid/bounds');
    expect(problem.what).toContain('greatest y: asked 20.001 mm, measured 20 mm');
  });

  test('two blocks where one is due, or none', () => {
    const { makeCompound, makeBox } = kernel.replicad;
    const two = makeCompound([makeBox([0, 0, 0], [1, 1, 1]), makeBox([5, 0, 0], [6, 1, 1])]);
    expect(problemOf(() => prove(kernel, two.wrapped, claim)).what).toContain('2 solids, not 1');
    expect(problemOf(() => prove(kernel, makeCompound([]).wrapped, claim)).code).toBe('solid/count');
  });

  test('a block turned inside out', () => {
    const inside = kernel.replicad.makeBox([0, 0, 0], [10, 20, 30]).wrapped.Reversed();
    expect(['solid/volume', 'solid/unsound']).toContain(problemOf(() => prove(kernel, inside, claim)).code);
  });

  test('a box without its lid', () => {
    const { oc, replicad } = kernel;
    const shell = new oc.BRepBuilderAPI_Sewing(1e-6, true, true, true, false);
    for (const face of replicad.makeBox([0, 0, 0], [10, 20, 30]).faces.slice(1)) shell.Add(face.wrapped);
    shell.Perform(new oc.Message_ProgressRange());
    const open = new oc.BRepBuilderAPI_MakeSolid(oc.TopoDS.Shell(shell.SewedShape())).Solid();
    expect(problemOf(() => prove(kernel, open, claim)).code).toBe('solid/unsound');
  });
});

test('importing the room loads nothing of the kernel', () => {
  const seen = spawnSync(process.execPath, [
    '--input-type=module',
    '-e',
    `import { build } from 'esbuild';
     const made = await build({ entryPoints: ['src/solid/index.ts'], bundle: true, format: 'esm', platform: 'node',
       write: false, metafile: true, external: ['replicad', 'replicad-opencascadejs'] });
     const [out] = Object.values(made.metafile.outputs);
     console.log(JSON.stringify(out.imports.filter((i) => i.path.startsWith('replicad')).map((i) => i.kind)));`,
  ]);
  expect(JSON.parse(seen.stdout.toString())).toEqual(['dynamic-import', 'dynamic-import']);
});
