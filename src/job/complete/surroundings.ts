import { bench } from '../../base/frames.js';
import { radians } from '../../base/numbers.js';
import { tolerance } from '../../base/tolerance.js';
import { distance3, type Vector } from '../../base/vectors.js';
import type { CollectorSpec, Job, KeepOut, KeepOutShape, TackFixtureSpec } from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { neighbours, ROLL } from '../tables/neighbours.js';
import { fileBody } from './placed-file.js';
import { unitOf } from './ports.js';

type WrittenKeepOut = NonNullable<Sections['keep_outs']>[number];

/** Clearances where nothing else is said (mm). Common practice. */
const usual = { tubeToTube: 6, nearSlots: 4, keepOut: 8 } as const;

/** The clearances; told as defaults only where the job has something to keep clear of. */
export function completeClear(written: Sections['clear'], asked: boolean, reading: Reading): Job['clear'] {
  if (!asked && !written) return { ...usual };
  return {
    tubeToTube: reading.length('clear.tube_to_tube', written?.tube_to_tube, usual.tubeToTube),
    nearSlots: reading.length('clear.near_slots', written?.near_slots, usual.nearSlots),
    keepOut: reading.length('clear.keep_out', written?.keep_out, usual.keepOut),
  };
}

export function completeWrench(written: Sections['wrench'], asked: boolean, reading: Reading): Job['wrench'] {
  if (!asked && !written) return { tool: 'socket' };
  return { tool: reading.word('wrench.tool', written?.tool, 'socket') };
}

/** The body of a keep-out from the one key that names it. */
function bodyOf(written: WrittenKeepOut, path: string, reading: Reading): KeepOutShape | undefined {
  const { box, cylinder, capsule, plane, mesh, step } = written;
  const given = Object.entries({ box, cylinder, capsule, plane, mesh, step }).filter(
    ([, v]) => v !== undefined,
  );
  const told = {
    why: 'the header is kept clear of one solid, and must know which',
    fix: 'give exactly one of: box, cylinder, capsule, plane, mesh, step',
  };
  if (given.length !== 1) {
    const found = given.map(([key]) => key).join(', ');
    if (given.length === 0)
      reading.error('job/keep-out', path, { what: `${path} ("${written.name}") has no body`, ...told });
    else
      reading.error('job/contradiction', path, {
        what: `${path} ("${written.name}") has ${given.length} bodies: ${found}`,
        ...told,
      });
    return undefined;
  }
  for (const key of ['file_unit', 'matched'] as const)
    if (written[key] !== undefined && mesh === undefined && step === undefined)
      reading.error('job/contradiction', `${path}.${key}`, {
        what: `${path}.${key} is given, but "${written.name}" is no file`,
        why: 'only a file has a unit and a frame of its own',
        fix: `leave ${key} out: 1 line less`,
      });
  if (box) return boxOf(box.from, box.to, path, reading);
  const round = cylinder ?? capsule;
  if (round) {
    const kind = cylinder ? 'cylinder' : 'capsule';
    if (distance3(round.from, round.to) > tolerance.samePoint) return { kind, ...round };
    reading.error('job/keep-out', `${path}.${kind}.to`, {
      what: `both ends of ${path}.${kind} are the same point`,
      why: 'it has no length and no direction, so nothing would be kept clear',
      fix: 'move one end, by the length of the solid',
    });
    return undefined;
  }
  if (plane) {
    if (written.comes_out !== undefined)
      reading.warn('job/contradiction', `${path}.comes_out`, {
        what: `${path} ("${written.name}") comes out ${written.comes_out}, but a plane has no end`,
        why: 'how far it must be drawn cannot be told, so it is taken to stay',
        fix: 'take comes_out away, or give the solid as a box, cylinder or capsule',
      });
    const normal = unitOf(plane.normal, `${path}.plane.normal`, reading);
    return normal && { kind: 'plane', at: plane.at, normal };
  }
  const file = mesh ?? step;
  if (file !== undefined) return fileBody(mesh === undefined ? 'step' : 'mesh', file, written, path, reading);
  return undefined;
}

/** A box with its least corner first. */
function boxOf(a: Vector, b: Vector, path: string, reading: Reading): KeepOutShape | undefined {
  const flat = (['right', 'up', 'out'] as const).filter(
    (_, i) => Math.abs((a[i] ?? 0) - (b[i] ?? 0)) <= tolerance.samePoint,
  );
  if (flat.length > 0) {
    reading.error('job/keep-out', `${path}.box.to`, {
      what: `${path}.box has no thickness: from and to have the same ${flat.join(' and ')}`,
      why: 'a box without thickness keeps nothing clear',
      fix: 'give two corners that differ in all three numbers',
    });
    return undefined;
  }
  const least = (i: 0 | 1 | 2): number => Math.min(a[i], b[i]);
  const most = (i: 0 | 1 | 2): number => Math.max(a[i], b[i]);
  return { kind: 'box', from: [least(0), least(1), least(2)], to: [most(0), most(1), most(2)] };
}

/** A keep-out's clearance: given, or usual for its kind, with more where it moves or is fixed to the body. */
function clearanceOf(
  written: WrittenKeepOut,
  path: string,
  common: number,
  usual: Usual[],
  reading: Reading,
): number {
  const kind = written.kind === undefined ? undefined : neighbours[written.kind];
  const rolls = written.fixed_to === 'body' || written.moves === true;
  const standard =
    (kind ? kind[written.shielded === true ? 'shielded' : 'bare'] : common) + (rolls ? ROLL : 0);
  if (written.clear === undefined) {
    const clear = reading.length(`${path}.clear`, undefined, standard);
    if (kind || rolls) {
      usual.push({
        path,
        what: `${path} ("${written.name}") is kept clear by ${reading.mm(clear)}, usual for ${written.kind ?? 'a neighbour'}${written.shielded === true ? ' behind a shield' : ''}${rolls ? ` with ${ROLL} mm for engine roll` : ''}`,
        clear: String(reading.unit === 'mm' ? clear : reading.mm(clear)),
      });
    }
    return clear;
  }
  if (kind && written.clear < standard - tolerance.samePoint) {
    reading.warn('job/small-clearance', `${path}.clear`, {
      what: `${path}.clear is ${reading.mm(written.clear)}; ${reading.mm(standard)} is usual for "${written.kind ?? ''}"${rolls ? ` with ${ROLL} mm for engine roll` : ''}`,
      why: 'heat ages what stands there long before it burns, and a leak on a hot pipe is a fire; local rules and the maker decide',
      fix: `make it ${reading.mm(standard)}, or say shielded: true where a shield stands between`,
    });
  }
  return written.clear;
}

/** A keep-out whose clearance was taken as is usual: what is told of it, and the number to write for it. */
interface Usual {
  readonly path: string;
  readonly what: string;
  readonly clear: string;
}

/** Told once for all of them: the caution is the same, and read only where it does not come again and again. */
function tellUsual(usual: readonly Usual[], reading: Reading): void {
  const [first, ...others] = usual;
  if (first === undefined) return;
  const numbers = usual.map(({ path, clear }) => `clear: ${clear} at ${path}`);
  reading.note('job/usual-clearance', first.path, {
    what: usual.map(({ what }) => what).join('; '),
    why: 'local rules and the maker of the vehicle decide what is enough',
    fix:
      others.length === 0
        ? `look it up and write it: clear: ${first.clear}`
        : `look them up and write them: ${numbers.join(', ')}`,
  });
}

export function completeKeepOuts(
  written: Sections['keep_outs'],
  clear: Job['clear'],
  reading: Reading,
): readonly KeepOut[] {
  const usual: Usual[] = [];
  const found = (written ?? []).flatMap((one, i): KeepOut[] => {
    const path = `keep_outs.${i}`;
    const shape = bodyOf(one, path, reading);
    const clearance = clearanceOf(one, path, clear.keepOut, usual, reading);
    if (!shape) return [];
    return [
      {
        name: one.name,
        path,
        shape,
        clear: clearance,
        what: one.kind,
        fixedTo: one.fixed_to ?? 'engine',
        headOf: one.head_of ?? [],
        comesOut: one.comes_out,
      },
    ];
  });
  tellUsual(usual, reading);
  return found;
}

/** How far below the collector's mouth the holders' base plane lies where nothing is said (mm). */
const BELOW = 200;

/** The tack fixture with its defaults (common practice; clearances for ovality after tube tolerance classes). */
export function completeTackFixture(
  written: Sections['tack_fixture'],
  collector: CollectorSpec | undefined,
  reading: Reading,
): TackFixtureSpec | undefined {
  if (!written) return undefined;
  const cradle = written.cradle ?? {};
  const path = 'tack_fixture.cradle';
  const { length } = reading;
  const normal = unitOf(
    reading.other('tack_fixture.base.normal', written.base?.normal, bench.up, '[0, 1, 0] (up)'),
    'tack_fixture.base.normal',
    reading,
  );
  if (!normal) return undefined;
  // Below the collector by more than any collector is thick.
  const standing: Vector = [0, (collector?.at[1] ?? -BELOW) - BELOW, 0];
  const at = reading.other(
    'tack_fixture.base.at',
    written.base?.at,
    standing,
    `[0, ${reading.mm(standing[1])}, 0]`,
  );
  const places = reading.other(`${path}.at`, cradle.at, 'auto' as const, 'auto');
  const strap = reading.other(`${path}.strap`, cradle.strap, {}, '13 x 3 mm');
  return {
    cradle: {
      width: length(`${path}.width`, cradle.width, 20),
      wall: length(`${path}.wall`, cradle.wall, 6),
      clearanceStraight: length(`${path}.clearance.straight`, cradle.clearance?.straight, 0.3),
      clearanceBend: length(`${path}.clearance.bend`, cradle.clearance?.bend, 0.6),
      embrace: reading.angle(`${path}.embrace`, cradle.embrace, radians(170)),
      strap: strap === 'none' ? undefined : { width: strap.width ?? 13, depth: strap.depth ?? 3 },
      foot: {
        thickness: length(`${path}.foot.thickness`, cradle.foot?.thickness, 6),
        tab: length(`${path}.foot.tab`, cradle.foot?.tab, 15),
        hole: length(`${path}.foot.hole`, cradle.foot?.hole, 4.5),
      },
      engrave: length(`${path}.engrave`, cradle.engrave, 0.6),
      at: places === 'auto' ? places : places.map((one, i) => ({ ...one, path: `${path}.at.${i}` })),
    },
    base: { at, normal },
    printerBed: reading.other(
      'tack_fixture.printer_bed',
      written.printer_bed as [number, number, number] | undefined,
      [220, 220, 250],
      '220 x 220 x 250 mm',
    ),
  };
}
