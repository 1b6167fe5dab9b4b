import { tidy } from '../base/numbers.js';
import type { Place, Problem } from '../base/problems.js';
import type { Locate } from '../read/source-map.js';
import type { Job } from './job.js';
import type { Rack } from './rack.js';
import type { Reading } from './reading.js';
import { materialOf } from './tables/materials.js';

/** Checks a rack across its keys: what no single value can tell. */
export function checkRack(rack: Rack, written: Record<string, unknown>, reading: Reading): void {
  const { mm } = reading;
  const { od, wall } = rack.tube;
  if (rack.bends.length + rack.straights.length === 0 && !brokenLists(written, rack))
    reading.error('rack/empty', '', {
      what: 'the rack holds 0 bends and 0 straights',
      why: 'there is nothing to saw the primaries from',
      fix: 'add 1 line under bends and 1 under straights',
    });
  if (2 * wall >= od)
    reading.error('rack/thick-wall', 'tube.wall', {
      what: `tube.wall is ${mm(wall)}; in a tube of ${mm(od)} it must be less than ${mm(od / 2)}`,
      why: 'the tube would have no bore',
      fix: `make the wall less than ${mm(od / 2)}, or check its unit`,
    });
  for (const bend of rack.bends) {
    if (bend.clr <= od / 2)
      reading.error('rack/tight-bend', `${bend.path}.clr`, {
        what: `${bend.path}.clr is ${mm(bend.clr)}; a tube of ${mm(od)} cannot turn tighter than ${mm(od / 2)}`,
        why: 'nothing is left of the inside of the bend',
        fix: `give the radius of the centre line: the inside radius and ${mm(od / 2)} more`,
      });
    bend.legs.forEach((leg, end) => {
      if (leg > 0 && leg <= rack.saw.rawTrim)
        reading.warn('rack/leg-lost', `${bend.path}.legs.${end}`, {
          what: `leg ${'AB'.charAt(end)} of ${bend.path} is ${mm(leg)}, and saw.raw_trim takes ${mm(rack.saw.rawTrim)} off it`,
          why: 'nothing is left of the leg, so it counts as none',
          fix: `write 0 for it, or make saw.raw_trim less than ${mm(leg)}`,
        });
    });
  }
  for (const straight of rack.straights) {
    const left = straight.length - 2 * rack.saw.rawTrim;
    if (left < LEAST_INSERT)
      reading.warn('rack/short-straight', `${straight.path}.length`, {
        what: `${straight.path} leaves ${mm(Math.max(0, left))} when both ends are trimmed; the least insert is ${mm(LEAST_INSERT)}`,
        why: 'no piece can be sawn from it',
        fix: `take it off the rack, or check that ${tidy(straight.length, 3)} mm is right`,
      });
  }
}

/** The shortest straight piece that can be held and welded at both ends, mm. Common practice, no source. */
const LEAST_INSERT = 20;

/** Whether the lists are written but could not be read: that has been told already. */
const brokenLists = (written: Record<string, unknown>, rack: Rack): boolean =>
  rack.bends.length + rack.straights.length === 0 &&
  ['bends', 'straights', 'offcuts'].some((key) => Array.isArray(written[key]) && written[key].length > 0);

/** Diameters and walls nearer than this are one size, written or measured differently (mm). Common practice. */
const SAME_SIZE = 0.05;

/**
 * Whether the rack's tube is the job's: diameter and wall within 0.05 mm (16 ga is 1.651, sold as 1.65), and
 * the same material by name or EN number. A job without a tube takes any rack.
 * @param locate where the keys stand in the rack file
 * @returns problems placed in the rack file
 */
export function rackFits(job: Job, rack: Rack, locate?: Locate): readonly Problem[] {
  if (job.tube === undefined) return [];
  const problems: Problem[] = [];
  const differs = (key: 'od' | 'wall' | 'material', here: string, asked: string, why: string): void => {
    const path = `tube.${key}`;
    const place: Place = {
      ...(rack.file === undefined ? {} : { file: rack.file }),
      path,
      ...locate?.(path),
    };
    problems.push({
      code: 'rack/other-tube',
      severity: 'error',
      what: `tube.${key} of the rack is ${here}; the job asks for ${asked}`,
      why,
      fix: `write tube.${key}: ${asked} in the rack if that is what lies there, or name another rack file in the job (1 line)`,
      place,
    });
  };
  const size = (key: 'od' | 'wall', why: string): void => {
    const [here, asked] = [rack.tube[key], job.tube?.[key] ?? 0];
    if (Math.abs(here - asked) > SAME_SIZE) differs(key, `${tidy(here)} mm`, `${tidy(asked)} mm`, why);
  };
  size('od', 'the tube would fit neither the flange nor the collector');
  size('wall', 'the bore would step at every joint, and the wall may be too thin');
  const [here, asked] = [rack.tube.material, job.tube.material];
  const same =
    (materialOf(here)?.name ?? here.toLowerCase()) === (materialOf(asked)?.name ?? asked.toLowerCase());
  if (!same) differs('material', here, asked, 'unlike steels need another filler, or do not weld at all');
  return problems;
}
