import { tidy } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { distance3 } from '../../base/vectors.js';
import { boundsOf, crossingsOfLoops, isInside, pointOf } from '../../geom/loops.js';
import { oneFace } from '../complete/studs.js';
import type { Job, Port, PortShape } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import type { Checked } from './checked.js';
import { onePlane, outlineOn } from './outlines.js';

/** Where a port's shape and place stand in the job. */
function pathsOf(written: Sections['ports'], index: number): { at: string; shape: string } {
  const own = written?.each?.[index]?.shape !== undefined;
  return {
    at: written?.each ? `ports.each.${index}.at` : 'ports.row.pitch',
    shape: own ? `ports.each.${index}.shape` : 'ports.shape',
  };
}

/** Whether a shape can be drawn; if not, the reason is told. */
function drawable(shape: PortShape, path: string, reading: Reading): boolean {
  const { mm } = reading;
  const refuse = (key: string, what: string, fix: string): false => {
    reading.error('job/shape', `${path}.${key}`, {
      what: `${path}.${key} ${what}`,
      why: 'no such outline can be drawn or cut',
      fix,
    });
    return false;
  };
  switch (shape.kind) {
    case 'obround':
      return (
        shape.length >= shape.width ||
        refuse(
          'obround.length',
          `is ${mm(shape.length)}, less than the width of ${mm(shape.width)}`,
          `make the length at least ${mm(shape.width)}, or swap them and add turned: 90`,
        )
      );
    case 'rounded rectangle': {
      const most = Math.min(shape.width, shape.height) / 2;
      return (
        shape.corner <= most + tolerance.samePoint ||
        refuse(
          'rounded_rectangle.corner',
          `is ${mm(shape.corner)}; half the smaller side is ${mm(most)}`,
          `make it at most ${mm(most)}`,
        )
      );
    }
    case 'd shape': {
      const upright = shape.flat === 'top' || shape.flat === 'bottom';
      const breadth = upright ? shape.width : shape.height;
      const depth = upright ? shape.height : shape.width;
      const most = Math.min(breadth / 2, depth / 2 - tolerance.shop);
      return (
        shape.corner <= most + tolerance.samePoint ||
        refuse(
          'd_shape.corner',
          `is ${mm(shape.corner)}; the straight side of ${mm(breadth)} and the depth of ${mm(depth)} leave at most ${mm(most)}`,
          `make it at most ${mm(most)}`,
        )
      );
    }
    default:
      return true;
  }
}

/** Shapes that can be drawn, openings and tubes that do not run into each other, faces that a plate can lie on. */
export function checkPorts({ job, written, reading }: Checked): void {
  const { ports } = job;
  const good = new Map<string, boolean>();
  const shapes = ports.map((port, i) => {
    if (!port.shape) return undefined;
    const path = pathsOf(written.ports, i).shape;
    const known = good.get(path) ?? drawable(port.shape, path, reading);
    good.set(path, known);
    return known ? port.shape : undefined;
  });
  let overlaps = 0;
  ports.forEach((a, i) => {
    ports.slice(i + 1).forEach((b, k) => {
      const j = i + 1 + k;
      const [first, second] = [shapes[i], shapes[j]];
      const path = pathsOf(written.ports, j).at;
      // A row has one pitch: told once.
      if (overlaps > 0 && written.ports?.row) return;
      if (
        distance3(a.at, b.at) <= tolerance.samePoint ||
        (first && second && overlapping(a, first, b, second))
      ) {
        overlaps += 1;
        tellOverlap(a, first, b, path, reading);
      } else if (job.tube && distance3(a.at, b.at) < job.tube.od) {
        overlaps += 1;
        reading.error('job/tubes-overlap', path, {
          what: `${a.id} and ${b.id} stand ${reading.mm(distance3(a.at, b.at))} apart; the tube is ${reading.mm(job.tube.od)} thick`,
          why: 'two primaries would stand in one place at the flange',
          fix: `check the pitch, or take a tube of at most ${reading.mm(Math.floor(distance3(a.at, b.at) * 10) / 10)}`,
        });
      }
    });
  });
  checkFaces(job, reading);
}

function overlapping(a: Port, first: PortShape, b: Port, second: PortShape): boolean {
  if (!onePlane(a.face, b.face)) return false;
  const one = outlineOn(a.face, a, first);
  const other = outlineOn(a.face, b, second);
  return (
    crossingsOfLoops(one, other).length > 0 || isInside(one, pointOf(other)) || isInside(other, pointOf(one))
  );
}

function tellOverlap(a: Port, shape: PortShape | undefined, b: Port, path: string, reading: Reading): void {
  const apart = distance3(a.at, b.at);
  const bounds = shape && boundsOf(outlineOn(a.face, a, shape));
  const width = bounds ? bounds.right - bounds.left : 0;
  const opening = width > 0 ? `; the opening is ${reading.mm(width)} wide along the row` : '';
  reading.error('job/ports-overlap', path, {
    what: `${a.id} and ${b.id} stand ${reading.mm(apart)} apart${opening}`,
    why: 'their openings run into each other, so no metal and no gasket is left between them',
    fix: `measure the pitch again: it must be more than ${reading.mm(width > 0 ? width : 20)}`,
  });
}

/** One plate lies on one plane. */
function checkFaces(job: Job, reading: Reading): void {
  const { flange, ports } = job;
  if (!flange || flange.madeAs === 'each' || oneFace(ports)) return;
  const first = ports[0];
  const off = ports.findIndex((port) => first && !onePlane(first.face, port.face));
  const port = ports[Math.max(off, 1)];
  const lift = port && first ? Math.abs(port.at[2] - first.at[2]) : 0;
  reading.error('job/face', 'flange.made_as', {
    what: `flange.made_as is ${flange.madeAs}, but ${port?.id ?? 'a port'} does not lie on the face of ${first?.id ?? 'P1'}${lift > 0 ? ` (${tidy(lift, 2)} mm further out or in)` : ''}`,
    why: 'a flat plate cannot bolt to two planes',
    fix: 'write made_as: each, or measure the places again: 0.25 mm out of one plane is allowed',
  });
}
