import { dShape, obround, roundedRectangle } from '../geom/shapes.js';
import { circleLoop, movedLoop } from '../geom/loops.js';
import { ellipseLoop } from '../geom/ellipse.js';
import type { Loop } from '../geom/segments.js';
import type { PortShape } from './job.js';

/**
 * The outline of a port, drawn about its own centre in its face's right and up (mm), grown by `margin`
 * on every side. Growing is done on the shape's own numbers, so a grown ellipse stays an ellipse of larger
 * axes (as a file or a gasket cutter would make it).
 */
export function portLoop(shape: PortShape, margin = 0): Loop {
  return movedLoop(plainLoop(shape, 2 * margin, margin), shape.turned, [0, 0]);
}

function plainLoop(shape: PortShape, more: number, margin: number): Loop {
  switch (shape.kind) {
    case 'circle':
      return circleLoop([0, 0], (shape.diameter + more) / 2);
    case 'obround':
      return obround(shape.length + more, shape.width + more);
    case 'ellipse':
      return ellipseLoop(shape.width + more, shape.height + more).loop;
    case 'rounded rectangle':
      return roundedRectangle(shape.width + more, shape.height + more, shape.corner + margin);
    case 'd shape':
      return dShape(shape.width + more, shape.height + more, shape.flat, shape.corner + margin);
  }
}
