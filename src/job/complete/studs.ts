import { bench, place, type Frame } from '../../base/frames.js';
import { tolerance } from '../../base/tolerance.js';
import { add, cross3, distance3, dot3, length3, scale, subtract } from '../../base/vectors.js';
import type { Port, Stud, Studs } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { threadNames, threadOf, type Fit, type Thread } from '../tables/threads.js';

type WrittenStuds = NonNullable<Sections['studs']>;
type WrittenStud = NonNullable<WrittenStuds['at']>[number];

/** The thread of a name, told where it is not in the table. */
function knownThread(name: string | undefined, path: string, reading: Reading): Thread | undefined {
  if (name === undefined) return undefined;
  const thread = threadOf(name);
  if (!thread) {
    reading.error('job/stud-hole', path, {
      what: `${path} is "${name}", which is not in the table of threads`,
      why: 'its clearance hole and the room for a socket are not known',
      fix: `write one of: ${threadNames.join(', ')}; or give the hole in place of the thread, such as hole: 9`,
    });
  }
  return thread;
}

/** The hole for a stud: given, or from its thread and fit. */
export function holeOf(
  given: { readonly hole?: number | undefined; readonly thread?: string | undefined },
  fit: Fit,
  path: string,
  reading: Reading,
): { hole: number; thread: Thread | undefined } | undefined {
  const thread = knownThread(given.thread, `${path}.thread`, reading);
  if (given.thread !== undefined && !thread) return undefined;
  if (given.hole === undefined) {
    if (thread) return { hole: thread.holes[fit], thread };
    reading.error('job/stud-hole', path, {
      what: `${path} has neither thread nor hole`,
      why: 'the size of the stud holes cannot be told',
      fix: 'add one of them: thread: M8 (a hole of 9 mm by ISO 273 medium), or hole: 9',
    });
    return undefined;
  }
  if (thread && given.hole <= thread.diameter) {
    reading.error('job/stud-hole', `${path}.hole`, {
      what: `${path}.hole is ${reading.mm(given.hole)}; an ${thread.name} stud is ${reading.mm(thread.diameter)} thick`,
      why: 'the plate would not go over its studs',
      fix: `make it ${reading.mm(thread.holes.medium)} (ISO 273 medium), or leave it out`,
    });
    return undefined;
  }
  return { hole: given.hole, thread };
}

const spotOf = (written: WrittenStud): readonly [number, number] =>
  Array.isArray(written) ? (written as [number, number]) : (written as { at: [number, number] }).at;
const ownOf = (written: WrittenStud): { hole?: number | undefined; thread?: string | undefined } =>
  Array.isArray(written) ? {} : (written as { hole?: number; thread?: string });

/** All ports on one plane with one right and up. */
export const oneFace = (ports: readonly Port[]): boolean =>
  ports.every((port) => {
    const first = ports[0]?.face ?? bench;
    const { right, up, out, origin } = port.face;
    const alike = length3(cross3(out, first.out)) < tolerance.samePoint && dot3(out, first.out) > 0;
    const upright =
      distance3(right, first.right) < tolerance.samePoint && distance3(up, first.up) < tolerance.samePoint;
    return alike && upright && Math.abs(dot3(subtract(origin, first.origin), first.out)) < tolerance.shop;
  });

/** The studs with their holes; those slotted for growth are longer by `slotted.by`, all but one. */
export function completeStuds(
  written: WrittenStuds | undefined,
  ports: readonly Port[],
  reading: Reading,
): Studs | undefined {
  if (!written) return undefined;
  const fit = reading.word(
    'studs.fit',
    written.hole === undefined ? written.fit : (written.fit ?? 'medium'),
    'medium',
  );
  const common = holeOf(written, fit, 'studs', reading);
  if (!common) return undefined;
  const found: {
    spot: readonly [number, number];
    own: ReturnType<typeof ownOf>;
    face: Frame;
    port: string | undefined;
    path: string;
  }[] = [];
  if (!written.at && !written.beside_each_port) {
    reading.error('job/missing-key', 'studs', {
      what: 'studs says neither at nor beside_each_port',
      why: 'the flange needs a hole for every stud',
      fix: 'add a line under studs, such as `beside_each_port: [[-33, 20], [33, -20]]`',
    });
    return undefined;
  }
  const first = ports[0];
  if (written.at && first && !oneFace(ports)) {
    reading.error('job/face', 'studs.at', {
      what: 'studs.at measures from port 1, but the ports stand on more than one face',
      why: 'it cannot be told on which face a stud stands',
      fix: 'give the studs with beside_each_port, in place of at',
    });
    return undefined;
  }
  written.at?.forEach((stud, i) => {
    const face = { ...(first?.face ?? bench), origin: first?.at ?? bench.origin };
    found.push({ spot: spotOf(stud), own: ownOf(stud), face, port: undefined, path: `studs.at.${i}` });
  });
  for (const port of ports) {
    written.beside_each_port?.forEach((stud, i) => {
      found.push({
        spot: spotOf(stud),
        own: ownOf(stud),
        face: port.face,
        port: port.id,
        path: `studs.beside_each_port.${i}`,
      });
    });
  }
  const slots = slotting(
    written,
    found.map(({ face, spot }) => place(face, [spot[0], spot[1], 0])),
    reading,
  );
  const all = found.flatMap(({ spot, own, face, port, path }, i): Stud[] => {
    const asked =
      own.hole === undefined && own.thread === undefined ? common : holeOf(own, fit, path, reading);
    const at = place(face, [spot[0], spot[1], 0]);
    return asked
      ? [
          {
            path,
            at,
            face: { ...face, origin: at },
            port,
            hole: asked.hole,
            // A hole of its own leaves it the thread of all.
            thread: (own.thread === undefined ? common : asked).thread?.name,
            slotted: slots[i] ?? 0,
          },
        ]
      : [];
  });
  return { thread: common.thread?.name, fit, hole: common.hole, all };
}

/** How much longer each hole is made: 0 for the one that stays round. */
function slotting(
  written: WrittenStuds,
  places: readonly (readonly [number, number, number])[],
  reading: Reading,
): number[] {
  const { slotted } = written;
  if (!slotted) return [];
  if (slotted.fixed !== undefined && slotted.fixed > places.length) {
    reading.error('job/out-of-range', 'studs.slotted.fixed', {
      what: `studs.slotted.fixed is ${slotted.fixed}; there are ${places.length} studs, counted from 1`,
      why: 'one hole stays round, so that the flange keeps its place while it grows',
      fix: `write a number from 1 to ${places.length}`,
    });
    return [];
  }
  const middle = scale(
    places.reduce((sum, at) => add(sum, at), [0, 0, 0]),
    1 / places.length,
  );
  let nearest = 0;
  places.forEach((at, i) => {
    if (distance3(at, middle) < distance3(places[nearest] ?? at, middle) - tolerance.shop) nearest = i;
  });
  const fixed = reading.other(
    'studs.slotted.fixed',
    slotted.fixed,
    nearest + 1,
    `stud ${nearest + 1}, nearest the middle`,
  );
  return places.map((_, i) => (i === fixed - 1 ? 0 : slotted.by));
}
