import { flatSeenFrom, type Frame } from '../../base/frames.js';
import { tolerance } from '../../base/tolerance.js';
import { cross3, dot3, length3, subtract } from '../../base/vectors.js';
import { movedLoop } from '../../geom/loops.js';
import type { Loop } from '../../geom/segments.js';
import type { Port, PortShape } from '../job.js';
import { portLoop } from '../port-loop.js';

/** A port's outline drawn on a face it shares. */
export function outlineOn(face: Frame, port: Port, shape: PortShape): Loop {
  const turn = Math.atan2(dot3(port.face.right, face.up), dot3(port.face.right, face.right));
  return movedLoop(portLoop(shape), turn, flatSeenFrom(face, port.at));
}

/** Whether two frames lie on one plane and look the same way. */
export function onePlane(a: Frame, b: Frame): boolean {
  const parallel = length3(cross3(a.out, b.out)) < tolerance.samePoint && dot3(a.out, b.out) > 0;
  return parallel && Math.abs(dot3(subtract(b.origin, a.origin), a.out)) < tolerance.shop;
}
