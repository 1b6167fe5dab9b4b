import { tidy } from '../base/numbers.js';
import { Refusal } from '../base/problems.js';
import { attempt } from './attempt.js';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';
import { requireSizes } from './sizes.js';
import { shapeOf, type Solid } from './solid.js';

/** Triangles with shared corners, each seen counter-clockwise from outside. */
export interface Mesh {
  /** x, y, z of each corner, mm. */
  readonly positions: Float64Array;
  /** Three corners of each triangle. */
  readonly triangles: Uint32Array;
}

export interface MeshOptions {
  /** How far a triangle may stand off the true surface, mm: 0.05 where nothing is said, a fair print. */
  readonly deflection?: number;
  /** Largest turn of the surface along an edge, rad: 0.2 where nothing is said. */
  readonly turn?: number;
}

/**
 * A closed mesh of a solid, for a print or a view. Faces are meshed one by one by the kernel; their corners
 * along a shared edge are the same points, and are made one. Proved closed: every edge belongs to two
 * triangles, once each way; and its volume comes near the solid's.
 * @throws Refusal `solid/mesh`, `solid/size`, `solid/kernel`.
 */
export function meshOf(
  kernel: Kernel,
  solid: Solid,
  { deflection = 0.05, turn = 0.2 }: MeshOptions = {},
): Mesh {
  requireSizes(solid.name, [
    { what: 'deflection of the mesh', value: deflection },
    { what: 'turn of the mesh (rad)', value: turn, below: Math.PI },
  ]);
  const work = {
    part: solid.name,
    doing: 'meshing',
    sizes: `deflection ${tidy(deflection)} mm`,
    cure: 'ask for a deflection of 0.1 mm',
  };
  const mesh = attempt(kernel, work, () => welded(extracted(kernel, solid, deflection, turn)));
  const leaks = leaksOf(mesh);
  const volume = volumeOfMesh(mesh);
  // Each triangle stands off by the deflection at most, so the volume cannot differ by more than that skin.
  const skin = areaOfMesh(mesh) * deflection;
  if (leaks > 0 || !(Math.abs(volume - solid.volume) <= skin)) throw leaky(solid, leaks, volume, work.cure);
  return mesh;
}

/** The kernel's own triangles, face by face, each with its own corners. */
function extracted(kernel: Kernel, solid: Solid, deflection: number, turn: number): Mesh {
  const { oc } = kernel;
  return withScratch((keep) => {
    const raw = keep(oc.ReplicadMeshExtractor.extract(shapeOf(solid), deflection, turn, true));
    const memory = oc.wasmMemory.buffer;
    return {
      positions: Float64Array.from(new Float32Array(memory, raw.getVerticesPtr(), raw.getVerticesSize())),
      triangles: Uint32Array.from(new Uint32Array(memory, raw.getTrianglesPtr(), raw.getTrianglesSize())),
    };
  });
}

/** Corners at the same place made one, triangles that shrink to nothing dropped, unused corners dropped. */
function welded({ positions, triangles }: Mesh): Mesh {
  const places = new Map<string, number>();
  const kept: number[] = [];
  const corner = Array.from({ length: positions.length / 3 }, (_, i) => {
    const [x = 0, y = 0, z = 0] = positions.subarray(3 * i, 3 * i + 3);
    // Adding 0 makes minus zero plain.
    const key = `${x + 0} ${y + 0} ${z + 0}`;
    const known = places.get(key);
    if (known !== undefined) return known;
    places.set(key, places.size);
    kept.push(x + 0, y + 0, z + 0);
    return places.size - 1;
  });
  const whole: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a = 0, b = 0, c = 0] = Array.from(triangles.subarray(i, i + 3), (at) => corner[at]);
    if (a !== b && b !== c && c !== a) whole.push(a, b, c);
  }
  return { positions: Float64Array.from(kept), triangles: Uint32Array.from(whole) };
}

/** Edges that do not have exactly one triangle on each side. */
function leaksOf({ positions, triangles }: Mesh): number {
  const corners = positions.length / 3;
  const edges = new Map<number, number>();
  for (let i = 0; i < triangles.length; i++) {
    const a = triangles[i] ?? 0;
    const b = triangles[i % 3 === 2 ? i - 2 : i + 1] ?? 0;
    const [key, way] = a < b ? [a * corners + b, 1] : [b * corners + a, 1 << 16];
    edges.set(key, (edges.get(key) ?? 0) + way);
  }
  let leaks = 0;
  for (const count of edges.values()) if (count !== 1 + (1 << 16)) leaks++;
  return leaks;
}

/** mm^3, from the tetrahedra between each triangle and the origin. Negative for a mesh turned inside out. */
function volumeOfMesh(mesh: Mesh): number {
  return sumOver(mesh, (a, b, c) => {
    const cross = [b[1] * c[2] - b[2] * c[1], b[2] * c[0] - b[0] * c[2], b[0] * c[1] - b[1] * c[0]] as const;
    return (a[0] * cross[0] + a[1] * cross[1] + a[2] * cross[2]) / 6;
  });
}

function areaOfMesh(mesh: Mesh): number {
  return sumOver(mesh, (a, b, c) => {
    const [u, v] = [
      [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const,
      [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const,
    ];
    return Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
  });
}

type Corner = readonly [number, number, number];

function sumOver({ positions, triangles }: Mesh, term: (a: Corner, b: Corner, c: Corner) => number): number {
  const at = (i: number): Corner => {
    const from = 3 * (triangles[i] ?? 0);
    return [positions[from] ?? 0, positions[from + 1] ?? 0, positions[from + 2] ?? 0];
  };
  let sum = 0;
  for (let i = 0; i < triangles.length; i += 3) sum += term(at(i), at(i + 1), at(i + 2));
  return sum;
}

const leaky = (solid: Solid, leaks: number, volume: number, cure: string): Refusal =>
  new Refusal([
    {
      code: 'solid/mesh',
      severity: 'error',
      what: `${solid.name}: the mesh has ${leaks} open edges and holds ${tidy(volume)} mm3 of ${tidy(solid.volume)}`,
      why: 'a slicer fills or drops the walls of a mesh that leaks, by guess',
      fix: cure,
    },
  ]);
