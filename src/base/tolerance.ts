/**
 * The one table of tolerances, by meaning. No other file writes a bare 1e-something for "equal".
 * Lengths in mm, directions as the sine of the angle between them.
 */
export const tolerance = {
  /** Two computed points are the same point (mm). */
  samePoint: 1e-6,
  /** Two unit directions are the same direction (sine of the angle). */
  sameDirection: 1e-9,
  /** Two points are one point to the CAD kernel: its own setting (mm). */
  kernelPoint: 1e-7,
  /** What survives a trip through a written file (mm). */
  file: 1e-4,
  /** What a tape and a scriber can tell apart (mm). */
  shop: 0.25,
  /** Largest gap between a true curve and the arcs that stand for it in a cut file (mm). */
  curveFit: 0.01,
  /** Largest gap between a solid's surface and the flat triangles of its print (mm). */
  mesh: 0.05,
  /** Largest relative difference allowed between a solid's volume and its closed form. */
  volume: 1e-6,
  /** The same for a cradle on a bend, where a curved edge cuts the kernel's integral over the saddle short. */
  saddleVolume: 1e-5,
} as const;
