import { flatSeenFrom, type Frame } from '../../base/frames.js';
import { tolerance } from '../../base/tolerance.js';
import { cross3, dot3, length3, subtract } from '../../base/vectors.js';
import { ellipseLoop } from '../../geom/ellipse.js';
import { circleLoop, movedLoop } from '../../geom/loops.js';
import { type Loop } from '../../geom/segments.js';
import { dShape, obround, roundedRectangle } from '../../geom/shapes.js';
import { type Port, type PortShape } from '../job.js';

/** The outline of a port about its own centre, not turned. */
function outline(shape: PortShape): Loop {
  switch (shape.kind) {
    case 'circle':
      return circleLoop([0, 0], shape.diameter / 2);
    case 'obround':
      return obround(shape.length, shape.width);
    case 'ellipse':
      return ellipseLoop(shape.width, shape.height).loop;
    case 'rounded rectangle':
      return roundedRectangle(shape.width, shape.height, shape.corner);
    case 'd shape':
      return dShape(shape.width, shape.height, shape.flat, shape.corner);
  }
}

/** A port's outline drawn on a face it shares. */
export function outlineOn(face: Frame, port: Port, shape: PortShape): Loop {
  const turn = Math.atan2(dot3(port.face.right, face.up), dot3(port.face.right, face.right));
  return movedLoop(outline(shape), shape.turned + turn, flatSeenFrom(face, port.at));
}

/** Whether two frames lie on one plane and look the same way. */
export function onePlane(a: Frame, b: Frame): boolean {
  const parallel = length3(cross3(a.out, b.out)) < tolerance.samePoint && dot3(a.out, b.out) > 0;
  return parallel && Math.abs(dot3(subtract(b.origin, a.origin), a.out)) < tolerance.shop;
}
