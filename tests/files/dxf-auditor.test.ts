import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { DxfOptions } from '../../src/files/dxf/drawing.js';
import { plateDrawing } from '../../src/files/dxf/plate-drawing.js';
import { writeDxf } from '../../src/files/dxf/write.js';
import { sampleOutlineArea, samplePlate } from './sample-plate.js';

/*
 * ezdxf (MIT), Debian's python3-ezdxf: its auditor checks handles, owners, tables and layers as a CAD program
 * does on opening, and its own bulge arithmetic gives the outline's area.
 */
const python = '/usr/bin/python3';
const auditor = `
import sys, json, math, ezdxf
from ezdxf.math import bulge_to_arc
def area(corners):
    total = 0
    for (x, y, bulge), (u, v, _) in zip(corners, corners[1:] + corners[:1]):
        total += (x * v - u * y) / 2
        if bulge:
            _, start, end, radius = bulge_to_arc((x, y), (u, v), bulge)
            sweep = (end - start) % (2 * math.pi)
            total += math.copysign(radius ** 2 * (sweep - math.sin(sweep)) / 2, bulge)
    return abs(total)
found = []
for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    outlines = []
    for e in doc.modelspace().query('LWPOLYLINE POLYLINE[layer=="CUT_OUTER"]'):
        outlines.append(area([tuple(p) for p in e.get_points('xyb')] if e.dxftype() == 'LWPOLYLINE'
            else [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge if v.dxf.hasattr('bulge') else 0) for v in e.vertices]))
    found.append({'version': doc.dxfversion, 'units': doc.header.get('$INSUNITS'), 'errors': [str(e) for e in audit.errors],
        'fixes': [str(e) for e in audit.fixes], 'outlines': outlines,
        'kinds': sorted({e.dxftype() for e in doc.modelspace()}), 'layers': sorted({e.dxf.layer for e in doc.modelspace()})})
print(json.dumps(found))
`;

interface Audit {
  readonly version: string;
  readonly units: number;
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly outlines: readonly number[];
  readonly kinds: readonly string[];
  readonly layers: readonly string[];
}

const cases: readonly DxfOptions[] = [
  { flavour: 'r2000' },
  { flavour: 'r12' },
  { flavour: 'r12-arcs' },
  { flavour: 'r2000', unit: 'in' },
  { flavour: 'r2000', oneLayer: true },
];
let folder: string;
let audits: readonly Audit[] | undefined;

beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tackwright-dxf-'));
  if (spawnSync(python, ['-c', 'import ezdxf']).status !== 0) return;
  const names = cases.map((options, i) => {
    const name = path.join(folder, `${i}.dxf`);
    writeFileSync(name, writeDxf(plateDrawing(samplePlate), options));
    return name;
  });
  const run = spawnSync(python, ['-c', auditor, ...names], { encoding: 'utf8' });
  if (run.status !== 0) throw new Error(run.stderr);
  audits = JSON.parse(run.stdout) as readonly Audit[];
});
afterAll(() => rmSync(folder, { recursive: true }));

test.for(cases.map((options, i) => ({ options, i })))(
  "ezdxf's auditor finds nothing to say or to mend, and reads the same: $options",
  ({ options, i }, context) => {
    context.skip(audits === undefined, 'skipped: needs python3-ezdxf');
    const audit = audits?.[i];
    expect(audit?.errors).toEqual([]);
    expect(audit?.fixes).toEqual([]);
    expect(audit?.version).toBe(options.flavour === 'r2000' ? 'AC1015' : 'AC1009');
    expect(audit?.units).toBe(options.unit === 'in' ? 1 : 4);
    if (options.oneLayer) expect(audit?.layers).toEqual(['0']);
    else expect(audit?.layers).toEqual(['CUT_INNER', 'CUT_OUTER', 'DRILL', 'ETCH']);
    const kinds = {
      r2000: ['CIRCLE', 'LWPOLYLINE', 'POINT'],
      r12: ['CIRCLE', 'POINT', 'POLYLINE'],
      'r12-arcs': ['ARC', 'CIRCLE', 'LINE', 'POINT'],
    };
    expect(audit?.kinds).toEqual(kinds[options.flavour ?? 'r2000']);
    if (options.flavour === 'r12-arcs' || options.oneLayer) return;
    const scale = options.unit === 'in' ? 25.4 ** 2 : 1;
    expect(audit?.outlines).toHaveLength(1);
    expect(Math.abs((audit?.outlines[0] ?? 0) * scale - sampleOutlineArea)).toBeLessThan(0.02);
  },
);
