import { flatSeenFrom } from '../../base/frames.js';
import { distance3 } from '../../base/vectors.js';
import { distanceTo, isInside } from '../../geom/loops.js';
import type { Checked } from './checked.js';
import { onePlane, outlineOn } from './outlines.js';

/** Stud holes that run into each other or into a port. One message for each pair of keys, not of studs. */
export function checkStuds({ job, reading }: Checked): void {
  const { studs, ports } = job;
  if (!studs) return;
  const { mm } = reading;
  const told = new Set<string>();
  const once = (key: string): boolean => !told.has(key) && told.add(key).size > 0;
  studs.all.forEach((a, i) => {
    studs.all.slice(i + 1).forEach((b, k) => {
      const least = (a.hole + b.hole) / 2;
      const apart = distance3(a.at, b.at);
      if (!onePlane(a.face, b.face) || apart >= least || !once(`${a.path} ${b.path}`)) return;
      reading.error('job/studs-overlap', b.path, {
        what: `studs ${i + 1} and ${i + k + 2} (${b.path}) stand ${mm(apart)} apart; their holes need ${mm(least)}`,
        why: 'the two holes run into each other',
        fix:
          apart < 1
            ? 'take one of them out: each stud is given once'
            : `move one by at least ${mm(least - apart)}`,
      });
    });
    for (const port of ports) {
      if (!port.shape || !onePlane(port.face, a.face) || reading.problems.some((p) => p.code === 'job/shape'))
        continue;
      const outline = outlineOn(port.face, port, port.shape);
      const at = flatSeenFrom(port.face, a.at);
      const apart = distanceTo(outline, at).distance * (isInside(outline, at) ? -1 : 1);
      if (apart >= a.hole / 2 || !once(a.path)) continue;
      reading.error('job/stud-in-port', a.path, {
        what: `stud ${i + 1} (${a.path}) stands ${apart < 0 ? `${mm(-apart)} inside` : `${mm(apart)} from`} the opening of ${port.id}; its hole needs ${mm(a.hole / 2)}`,
        why: 'the hole breaks into the port, and the gasket cannot seal',
        fix: `move it at least ${mm(a.hole / 2 - apart)} away, or check the signs: right and up are positive`,
      });
    }
  });
}
