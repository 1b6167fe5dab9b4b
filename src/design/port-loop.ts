import { dShape, obround, roundedRectangle } from '../geom/shapes.js';
import { circleLoop, movedLoop } from '../geom/loops.js';
import { ellipseLoop } from '../geom/ellipse.js';
import { type Loop } from '../geom/segments.js';
import { type PortShape } from '../job/job.js';

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

/** A port's shape in words: `38 x 34 rounded rectangle, corners 12`. */
export function portWords(shape: PortShape): string {
  switch (shape.kind) {
    case 'circle':
      return `round port ${shape.diameter}`;
    case 'obround':
      return `obround port ${shape.length} x ${shape.width}`;
    case 'ellipse':
      return `ellipse port ${shape.width} x ${shape.height}`;
    case 'rounded rectangle':
      return `rounded rectangle port ${shape.width} x ${shape.height}, corners ${shape.corner}`;
    case 'd shape':
      return `D port ${shape.width} x ${shape.height}, flat ${shape.flat}`;
  }
}
