import { bench, frameFacing, type Frame } from '../../base/frames.js';
import { degrees, tidy } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { add, cross3, direction, dot3, length3, scale, type Vector } from '../../base/vectors.js';
import type { Port, PortShape } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';

type WrittenPorts = NonNullable<Sections['ports']>;
type WrittenShape = NonNullable<WrittenPorts['shape']>;
type WrittenPort = NonNullable<WrittenPorts['each']>[number];

/** Beyond this lean the gas would scrape along the face: the face, or the direction, is wrong. */
const MOST_LEAN = (75 * Math.PI) / 180;

/** The form of a port from the one key that names it. */
function portShape(
  written: WrittenShape | undefined,
  turned: number | undefined,
  path: string,
  reading: Reading,
): PortShape | undefined {
  if (!written) return undefined;
  const { turned: own = 0, ...forms } = written;
  const given = Object.entries(forms).filter(([, form]) => form !== undefined);
  const names = 'circle, obround, ellipse, rounded_rectangle, d_shape';
  if (given.length !== 1) {
    const told = { why: 'the flange is opened to one outline', fix: `give exactly one of: ${names}` };
    if (given.length === 0)
      reading.error('job/missing-key', path, { what: `${path} names no form`, ...told });
    else
      reading.error('job/contradiction', path, {
        what: `${path} names ${given.length} forms: ${given.map(([key]) => key).join(', ')}`,
        ...told,
      });
    return undefined;
  }
  const angle = turned ?? own;
  const { circle, obround, ellipse, rounded_rectangle: rectangle, d_shape: d } = forms;
  if (circle) return { kind: 'circle', ...circle, turned: angle };
  if (obround) return { kind: 'obround', ...obround, turned: angle };
  if (ellipse) return { kind: 'ellipse', ...ellipse, turned: angle };
  if (rectangle) return { kind: 'rounded rectangle', ...rectangle, turned: angle };
  return d && { kind: 'd shape', ...d, turned: angle };
}

/** unit(out - tan d up + tan r right): a port tilted down by d and to the right by r, in its face's frame. */
function leavingDirection(face: Frame, down: number, right: number): Vector {
  return direction(add(face.out, add(scale(face.up, -Math.tan(down)), scale(face.right, Math.tan(right)))));
}

/** A direction of length 1, or undefined with the problem told. */
export function unitOf(given: Vector | undefined, path: string, reading: Reading): Vector | undefined {
  if (!given) return undefined;
  if (length3(given) > tolerance.samePoint) return direction(given);
  reading.error('job/zero-direction', path, {
    what: `${path} is [${given.map((n) => tidy(n)).join(', ')}]: a direction of no length`,
    why: 'it points nowhere',
    fix: 'give at least one number that is not 0, such as [0, -1, 0] for straight down',
  });
  return undefined;
}

/** The face a port says it stands on. */
function ownFace(written: WrittenPort, path: string, reading: Reading): Frame | undefined {
  const normal = unitOf(written.face?.normal, `${path}.face.normal`, reading);
  if (!normal) return undefined;
  const level = Math.abs(dot3(normal, bench.up)) > Math.cos(Math.PI / 180);
  const up = unitOf(
    reading.other(
      `${path}.face.up`,
      written.face?.up,
      level ? bench.out : bench.up,
      level ? '[0, 0, 1]' : '[0, 1, 0]',
    ),
    `${path}.face.up`,
    reading,
  );
  if (!up) return undefined;
  if (length3(cross3(up, normal)) < Math.sin(Math.PI / 180)) {
    reading.error('job/face', `${path}.face.up`, {
      what: `${path}.face.up runs along the normal`,
      why: 'it cannot be told which way up the plate lies',
      fix: 'give the direction that is up on the face, at least 1 deg off its normal',
    });
    return undefined;
  }
  return frameFacing(written.at, normal, up);
}

function leanTold(port: string, lean: number): { what: string; why: string } {
  return {
    what: `${port} leaves ${tidy(degrees(lean), 1)} deg off square to its face; the most is ${tidy(degrees(MOST_LEAN))} deg`,
    why: 'the tube would lie along the plate and its hole would have no end',
  };
}

/** A port on its face, from a direction or tilts. */
function onePort(
  id: string,
  written: WrittenPort,
  ports: WrittenPorts,
  path: string,
  cut: boolean,
  reading: Reading,
): Port | undefined {
  if (written.direction && written.leaving) {
    reading.error('job/contradiction', `${path}.leaving`, {
      what: `${path} has both a direction and leaving`,
      why: 'the gas leaves in one direction, and nothing says which of the two holds',
      fix: 'take out one of them: leaving (tilts in degrees) or direction (3 numbers)',
    });
  }
  const pointing = unitOf(written.direction, `${path}.direction`, reading);
  if (written.direction && !pointing) return undefined;
  let face = written.face ? ownFace(written, path, reading) : { ...bench, origin: written.at };
  if (!face) return undefined;
  const lean = pointing ? Math.acos(Math.min(1, dot3(pointing, face.out))) : 0;
  if (pointing && lean > MOST_LEAN) {
    if (written.face || cut) {
      reading.error('job/face', `${path}.direction`, {
        ...leanTold(id, lean),
        fix: written.face
          ? 'turn the direction round or correct face.normal, to at most 75 deg apart'
          : `say which way its face looks: face: { normal: [${pointing.map((n) => tidy(n, 2)).join(', ')}] }, within 75 deg of the direction`,
      });
      return undefined;
    }
    reading.defaults.push({ path: `${path}.face`, value: 'square to the direction' });
    face = frameFacing(
      written.at,
      pointing,
      Math.abs(dot3(pointing, bench.up)) > 0.99 ? bench.out : bench.up,
    );
  }
  const tilt = written.leaving ?? ports.leaving;
  const flow = pointing ?? leavingDirection(face, tilt?.down ?? 0, tilt?.right ?? 0);
  if (!pointing && !tilt) reading.defaults.push({ path: `${path}.leaving`, value: 'square off the face' });
  const shapePath = written.shape ? `${path}.shape` : 'ports.shape';
  return {
    id,
    at: written.at,
    direction: flow,
    face,
    shape: portShape(written.shape ?? ports.shape, written.turned, shapePath, reading),
  };
}

/**
 * The ports, in order, each on its face. `cut` says that a plate is asked for, which needs to know the faces.
 * A row runs along the face from port 1 at the origin: to the right, or to the left where `first: right`.
 */
export function completePorts(
  ports: WrittenPorts | undefined,
  cut: boolean,
  reading: Reading,
): readonly Port[] {
  if (!ports) return [];
  const { row, each } = ports;
  if (row && each) {
    reading.error('job/contradiction', 'ports.each', {
      what: 'ports has both a row and each',
      why: 'the ports would stand in two places at once',
      fix: 'take out one of them: row (count and pitch) or each (every port by itself)',
    });
    return [];
  }
  if (each) {
    return each.flatMap(
      (written, i) => onePort(`P${i + 1}`, written, ports, `ports.each.${i}`, cut, reading) ?? [],
    );
  }
  if (!row) {
    reading.error('job/missing-key', 'ports.row', {
      what: 'ports says neither row nor each',
      why: 'without ports there is nothing to make',
      fix: 'add a line under ports: `row: { count: 4, pitch: 92 }`',
    });
    return [];
  }
  if (row.pitch === undefined && row.count > 1) {
    reading.error('job/missing-key', 'ports.row.pitch', {
      what: `ports.row.pitch is missing, for ${row.count} ports`,
      why: 'it is the distance from one port to the next, and must be measured',
      fix: `add it: row: { count: ${row.count}, pitch: 92 }`,
    });
    return [];
  }
  const toRight =
    reading.word('ports.row.first', row.count > 1 ? row.first : 'left', 'left') === 'left' ? 1 : -1;
  const tilt = reading.other('ports.leaving', ports.leaving, {}, 'square off the face');
  const flow = leavingDirection(bench, tilt.down ?? 0, tilt.right ?? 0);
  const shape = portShape(ports.shape, undefined, 'ports.shape', reading);
  return Array.from({ length: row.count }, (_, i): Port => {
    const at: Vector = [i === 0 ? 0 : toRight * i * (row.pitch ?? 0), 0, 0];
    return { id: `P${i + 1}`, at, direction: flow, face: { ...bench, origin: at }, shape };
  });
}
