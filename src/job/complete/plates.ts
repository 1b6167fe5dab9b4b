import type {
  CollectorSpec,
  FlangeSpec,
  MergePlateSpec,
  StrongbackSpec,
  Studs,
  Tube,
  CutBy,
  Port,
} from '../job.js';
import type { Reading } from '../reading.js';
import type { Sections } from '../schema/job.js';
import { cuttingRules } from '../tables/cutting.js';
import { holeOf } from './studs.js';

/** Usual measures of plates (mm); common practice unless said otherwise. */
const usual = {
  thickness: 10,
  edge: 10,
  /** Metal past a stud hole. */
  past: 9,
  web: 30,
  fillet: 8,
  margin: 1,
  land: 6,
  material: '304',
} as const;

/** The flange with its defaults. */
export function completeFlange(
  written: Sections['flange'],
  ports: readonly Port[],
  studs: Studs | undefined,
  tube: Tube | undefined,
  reading: Reading,
): FlangeSpec | undefined {
  if (!written) return undefined;
  const { length, word, flag } = reading;
  const cutBy = word<CutBy>('flange.cut_by', written.cut_by, 'plasma');
  const alone = ports.length < 2;
  const madeAs = word('flange.made_as', written.made_as, 'one piece');
  return {
    thickness: length('flange.thickness', written.thickness, usual.thickness),
    material: word('flange.material', written.material, tube?.material ?? usual.material),
    edge: length('flange.edge', written.edge, usual.edge),
    boss: length('flange.boss', written.boss, (studs?.hole ?? 9) / 2 + usual.past),
    webHeight: length('flange.web.height', written.web?.height, alone || madeAs === 'each' ? 0 : usual.web),
    fillet: length('flange.fillet', written.fillet, usual.fillet),
    leastWeb: length('flange.least_web', written.least_web, cuttingRules[cutBy].leastWeb),
    madeAs,
    cutBy,
    opening: word('flange.opening', written.opening, 'auto'),
    openingMargin: length('flange.opening_margin', written.opening_margin, usual.margin),
    land: length('flange.land', written.land, usual.land),
    cutSmallHoles: flag('flange.cut_small_holes', written.cut_small_holes, false),
    relief: written.relief,
    etch: flag('flange.etch', written.etch, true),
    nick: flag('flange.nick', written.nick, false),
    dowels: (written.dowels ?? []).map((dowel, i) => ({ ...dowel, path: `flange.dowels.${i}` })),
  };
}

/** The strongback with its defaults: 20 mm mild steel is usual (common practice). */
export function completeStrongback(
  written: Sections['strongback'],
  reading: Reading,
): StrongbackSpec | undefined {
  if (!written) return undefined;
  return {
    thickness: reading.length('strongback.thickness', written.thickness, 20),
    material: reading.word('strongback.material', written.material, 'mild steel'),
    margin: reading.length('strongback.margin', written.margin, 15),
    cutBy: reading.word<CutBy>('strongback.cut_by', written.cut_by, 'plasma'),
  };
}

/**
 * The merge plate with its defaults (common practice). Its web carries no bolts and is welded in all round,
 * so 4 mm is enough where a flange wants 5 or 8. With slip joints it stands at the sleeves' mouth.
 */
export function completeMergePlate(
  written: Sections['merge_plate'],
  collector: CollectorSpec | undefined,
  tube: Tube | undefined,
  reading: Reading,
): MergePlateSpec | undefined {
  if (!written) return undefined;
  const { length, word, flag } = reading;
  const slip = collector?.joint === 'slip' ? collector.slip : undefined;
  const ring = written.bolt_ring;
  const bolt =
    ring &&
    (ring.hole === undefined && ring.thread === undefined
      ? noBolt(reading)
      : holeOf(ring, 'medium', 'merge_plate.bolt_ring', reading));
  const thickness = length('merge_plate.thickness', written.thickness, 6);
  return {
    thickness,
    material: word('merge_plate.material', written.material, tube?.material ?? usual.material),
    cutBy: word<CutBy>('merge_plate.cut_by', written.cut_by, 'laser'),
    // At the mouth of the sleeves; tubes that are welded in end flush with its far side.
    upstream: length('merge_plate.upstream', written.upstream, slip?.depth ?? thickness),
    gap: length('merge_plate.gap', written.gap, slip?.gap ?? 0.4),
    outline: word('merge_plate.outline', written.outline, 'hugging'),
    edge: length('merge_plate.edge', written.edge, usual.edge),
    fillet: length('merge_plate.fillet', written.fillet, usual.fillet),
    leastWeb: length('merge_plate.least_web', written.least_web, 4),
    centreTube: written.centre_tube,
    starHole: written.star_hole,
    boltRing:
      ring && bolt
        ? { count: ring.count, hole: bolt.hole, circle: ring.circle, thread: bolt.thread?.name }
        : undefined,
    etch: flag('merge_plate.etch', written.etch, true),
  };
}

function noBolt(reading: Reading): undefined {
  reading.error('job/bolt-ring', 'merge_plate.bolt_ring', {
    what: 'merge_plate.bolt_ring has neither thread nor hole',
    why: 'the size of the bolt holes cannot be told',
    fix: 'add one of them: thread: M8 (a hole of 9 mm by ISO 273 medium), or hole: 9',
  });
  return undefined;
}
