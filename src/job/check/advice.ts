import { materialOf } from '../tables/materials.js';
import type { Checked } from './checked.js';

/** Below these (mm) a value is legal but unwise. Common practice, no source. */
const least = { flange: 6, fillet: 5, stub: 25, wall: 1 } as const;
const MOST_WALL = 3.5;

/** What a fabricator would say over the shoulder: warnings, and the build goes on. */
export function adviseOnJob({ job, written, reading }: Checked): void {
  const { flange, primaries, tube } = job;
  const { mm, warn } = reading;
  if (flange && flange.thickness < least.flange) {
    warn('job/thin-flange', 'flange.thickness', {
      what: `flange.thickness is ${mm(flange.thickness)}; under ${mm(least.flange)} a plate warps`,
      why: 'weld shrinkage pulls it hollow between the studs, and it leaks',
      fix: `make it ${mm(8)} to ${mm(12)}, or weld it on a strongback and skim it flat`,
    });
  }
  if (flange && flange.fillet < least.fillet) {
    warn('job/sharp-fillet', 'flange.fillet', {
      what: `flange.fillet is ${mm(flange.fillet)}; ${mm(least.fillet)} is the least that is usual`,
      why: 'cracks start in sharp inside corners of a plate that heats and cools',
      fix: `make it ${mm(8)}`,
    });
  }
  if (flange && flange.edge < flange.land) {
    warn('job/narrow-edge', 'flange.edge', {
      what: `flange.edge is ${mm(flange.edge)}; the gasket land asked is ${mm(flange.land)}`,
      why: 'the gasket hangs over the edge of the plate and burns away',
      fix: `make it at least ${mm(flange.land)}`,
    });
  }
  if (primaries && written.primaries?.stub !== undefined && primaries.stub < least.stub) {
    warn('job/short-straight', 'primaries.stub', {
      what: `primaries.stub is ${mm(primaries.stub)}; ${mm(30)} is usual and ${mm(least.stub)} the least`,
      why: 'torch and nuts want room between the flange and the first bend',
      fix: `make it ${mm(30)}`,
    });
  }
  if (tube && tube.wall < tube.od / 2 && (tube.wall < least.wall || tube.wall > MOST_WALL)) {
    warn('job/thin-wall', 'tube.wall', {
      what: `tube.wall is ${mm(tube.wall)}; ${mm(1.2)} to ${mm(2.6)} is usual`,
      why:
        tube.wall < least.wall
          ? 'it burns through at the weld and cracks beside it'
          : 'it is heavy and hard to bend; it may be a diameter or another unit',
      fix: `measure it again; ${mm(1.6)} is usual`,
    });
  }
  const materials = {
    'tube.material': tube?.material,
    'flange.material': written.flange?.material,
    'merge_plate.material': written.merge_plate?.material,
    'strongback.material': written.strongback?.material,
  };
  for (const [path, name] of Object.entries(materials)) {
    if (name === undefined || materialOf(name)) continue;
    warn('job/unknown-material', path, {
      what: `${path} is "${name}", which is in none of the tables`,
      why: 'its mass and growth are worked out as those of 304 (7900 kg/m3)',
      fix: 'write 304, 321, 409 or mild steel where it is one of them',
    });
  }
}
