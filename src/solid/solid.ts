import type { TopoDS_Shape } from 'replicad-opencascadejs';
import type { Vector } from '../base/vectors.js';

/** An upright box in a part's own frame, mm. */
export interface Box {
  readonly low: Vector;
  readonly high: Vector;
}

/** One thing that was asked of a part and then measured on it. */
export interface Measure {
  /** `volume against area x thickness`. */
  readonly what: string;
  readonly asked: number;
  readonly measured: number;
  readonly unit: 'mm' | 'mm2' | 'mm3' | 'count';
  /** Largest difference allowed, in the same unit. */
  readonly tolerance: number;
  readonly ok: boolean;
}

/** A proved solid. What it is made of stays in this room. Lengths in mm, in the part's own frame. */
export interface Solid {
  readonly name: string;
  /** mm^3, measured. */
  readonly volume: number;
  readonly bounds: Box;
  /** What was proved of it when it was made. */
  readonly measures: readonly Measure[];
  /** Gives its memory back to the kernel. A solid cannot be used after. */
  dispose(): void;
}

const shapes = new WeakMap<Solid, TopoDS_Shape>();

/** Wraps a kernel shape that has been proved. Only prove.ts and the STEP reader do this. */
export function solidOf(shape: TopoDS_Shape, known: Omit<Solid, 'dispose'>): Solid {
  const solid: Solid = {
    ...known,
    dispose() {
      if (shapes.delete(solid)) shape.delete();
    },
  };
  shapes.set(solid, shape);
  return solid;
}

/** The kernel's shape of a solid. */
export function shapeOf(solid: Solid): TopoDS_Shape {
  const shape = shapes.get(solid);
  if (!shape) throw new Error(`the solid of ${solid.name} was disposed of before its last use`);
  return shape;
}
