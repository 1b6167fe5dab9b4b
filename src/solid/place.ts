import type { TopLoc_Location } from 'replicad-opencascadejs';
import { bench, type Frame } from '../base/frames.js';
import type { Kernel } from './kernel.js';
import { withScratch } from './scratch.js';

/** Where a part's own frame stands, as the kernel has it. */
export function locationOf({ oc }: Kernel, at: Frame = bench): TopLoc_Location {
  const { origin: o, right: x, up: y, out: z } = at;
  return withScratch((keep) => {
    const move = keep(new oc.gp_Trsf());
    move.SetValues(x[0], y[0], z[0], o[0], x[1], y[1], z[1], o[1], x[2], y[2], z[2], o[2]);
    return new oc.TopLoc_Location(move);
  });
}
