import type { Vector } from '../../base/vectors.js';
import { tolerance } from '../../base/tolerance.js';
import { boxOf, skinOf, trianglesOf, volumeOf, type Box, type Mesh } from '../mesh/mesh.js';
import { readStl } from '../mesh/stl.js';
import { read3mf, type Print } from '../mesh/three-mf.js';
import { startGauge, type Gauge, type Measure } from './measure.js';

/** What a print must be. */
export interface PrintAsked {
  readonly name: string;
  /** Of the solid it was meshed from, mm3. */
  readonly volume: number;
  /** Of the solid, mm; absent where it is not known. */
  readonly box?: Box;
  /** How far the triangles may stand off the solid's true surface, mm. */
  readonly deflection: number;
  /** The printer's bed and height, mm. */
  readonly bed: readonly [number, number, number];
}

/** Measures an STL file as read back against the solid it was made from. */
export function measureStl(bytes: Uint8Array, asked: PrintAsked): readonly Measure[] {
  const gauge = startGauge(asked.name, 'STL read back');
  try {
    measureSkin(gauge, readStl(bytes), asked);
  } catch (error) {
    unreadable(gauge, error);
  }
  return gauge.measures;
}

/** Measures a 3MF file as read back: unit, names, and every print against its solid. */
export async function measure3mf(
  bytes: Uint8Array,
  asked: readonly PrintAsked[],
): Promise<readonly Measure[]> {
  const reader = '3MF read back';
  const gauges = asked.map((print) => startGauge(print.name, reader));
  try {
    const found = await read3mf(bytes);
    gauges.forEach((gauge, i) => {
      const [one, print] = [asked[i], found.prints[i]];
      if (!one) return;
      gauge.word('unit', 'millimeter', found.unit);
      gauge.word('name', one.name, print?.name ?? 'none');
      gauge.count('prints in the file', asked.length, found.prints.length);
      gauge.count('prints placed on the bed', asked.length, found.placed);
      measureSkin(gauge, (print ?? nothing).mesh, one);
    });
  } catch (error) {
    gauges.forEach((gauge) => unreadable(gauge, error));
  }
  return gauges.flatMap((gauge) => gauge.measures);
}

/**
 * Measures a printed part's file of either format against its solid.
 * @param deflection how far the triangles may stand off the solid, mm
 */
export async function measureMesh(
  part: { readonly name: string },
  solid: { readonly volume: number; readonly bounds: { readonly low: Vector; readonly high: Vector } },
  bytes: Uint8Array,
  format: '3mf' | 'stl',
  bed: PrintAsked['bed'],
  deflection: number = tolerance.mesh,
): Promise<readonly Measure[]> {
  const box = { least: solid.bounds.low, most: solid.bounds.high };
  const asked = { name: part.name, volume: solid.volume, box, deflection, bed };
  return format === '3mf' ? measure3mf(bytes, [asked]) : measureStl(bytes, asked);
}

const nothing: Print = { name: '', mesh: { positions: new Float64Array(), triangles: new Uint32Array() } };

const unreadable = (gauge: Gauge, error: unknown): void =>
  gauge.word('file can be read', 'yes', `no: ${error instanceof Error ? error.message : String(error)}`);

/**
 * A skin that a slicer takes without mending: closed, outward, in one body, as large as the solid within what
 * flat triangles make of its curves, standing on the bed and within the printer.
 */
function measureSkin(gauge: Gauge, mesh: Mesh, asked: PrintAsked): void {
  const { loose, bodies } = seamsOf(mesh);
  const volume = volumeOf(mesh);
  const { least, most } = boxOf(mesh);
  gauge.count('edges not shared by two triangles that run opposite', 0, loose);
  gauge.count('bodies', 1, bodies);
  gauge.word('skin faces', 'outward', volume > 0 ? 'outward' : 'inward');
  gauge.size('volume', asked.volume, volume, 'mm3', skinOf(mesh) * asked.deflection);
  const axes = ['x', 'y', 'z'] as const;
  axes.forEach((axis, i) => {
    const [low, high] = [least[i] ?? NaN, most[i] ?? NaN];
    const box = asked.box && [asked.box.least[i] ?? NaN, asked.box.most[i] ?? NaN];
    const slack = asked.deflection + tolerance.file;
    if (box) gauge.size(`size along ${axis}`, (box[1] ?? NaN) - (box[0] ?? NaN), high - low, 'mm', 2 * slack);
    gauge.atMost(`${axis} within the printer`, asked.bed[i] ?? NaN, high - low, 'mm', 0);
  });
  gauge.size('lowest point, on the bed', 0, least[2], 'mm', tolerance.file);
}

/** Edges that spoil a closed skin, and how many separate bodies the triangles make. */
function seamsOf(mesh: Mesh): { readonly loose: number; readonly bodies: number } {
  const corners = mesh.positions.length / 3;
  const ways = new Map<number, number>();
  const leader = Uint32Array.from({ length: corners }, (_, i) => i);
  const leaderOf = (corner: number): number => {
    let at = corner;
    while (leader[at] !== at) at = leader[at] = leader[leader[at] ?? at] ?? at;
    return at;
  };
  const used = new Set<number>();
  for (const [a, b, c] of trianglesOf(mesh)) {
    for (const [from, to] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      const way = from * corners + to;
      ways.set(way, (ways.get(way) ?? 0) + 1);
      leader[leaderOf(from)] = leaderOf(to);
      used.add(from);
    }
  }
  let loose = 0;
  for (const [way, times] of ways) {
    const back = (way % corners) * corners + Math.floor(way / corners);
    if (times !== 1 || ways.get(back) !== 1) loose++;
  }
  return { loose, bodies: new Set([...used].map(leaderOf)).size };
}
