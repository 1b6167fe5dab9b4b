import type { Random } from '../../src/base/random.js';

/** Sections of an invented flange, as a script would hand them over. Every kind of port, plate and tube joint. */
export function randomFlange(random: Random): Record<string, unknown> {
  const count = random.whole(1, 6);
  const wide = random.between(28, 46);
  const high = random.between(24, wide);
  const pitch = wide + random.between(34, 60);
  const thickness = random.pick([6, 8, 9.5, 10, 12.7]);
  const od = random.pick([38.1, 42.4, 44.5, 48.3]);
  const shape = random.pick([
    { circle: { diameter: high } },
    { obround: { length: wide, width: high } },
    { ellipse: { width: wide, height: high } },
    { rounded_rectangle: { width: wide, height: high, corner: random.between(3, high / 2) } },
    {
      d_shape: {
        width: wide,
        height: high,
        flat: random.pick(['top', 'bottom', 'left', 'right']),
        corner: 4,
      },
    },
  ]);
  const hole = random.pick([6.6, 9, 11]);
  const reach = Math.max(wide, od) / 2 + hole / 2 + random.between(9, 14);
  const made = random.pick(['one piece', 'one piece', 'each', 'pairs']);
  // Plates of their own need a gap between them on the head.
  const spread = made === 'one piece' ? 0 : 2 * reach + 40 - pitch;
  const joint = random.pick(['butt', 'butt', 'through', { socket: { depth: thickness / 2 } }]);
  return {
    ports: {
      shape: random.chance(0.3) ? { ...shape, turned: random.between(-40, 40) } : shape,
      row: { count, pitch: pitch + Math.max(0, spread) },
      leaving: {
        down: random.pick([0, random.between(-10, 25)]),
        right: random.pick([0, random.between(-10, 10)]),
      },
    },
    studs: {
      hole,
      beside_each_port: [
        [-reach * 0.72, reach * 0.72],
        [reach * 0.72, -reach * 0.72],
        ...(random.chance(0.3) ? [[reach * 0.72, reach * 0.72]] : []),
      ],
    },
    flange: {
      thickness,
      edge: random.between(8, 14),
      web: { height: random.between(22, 40) },
      fillet: random.between(5, 12),
      least_web: 5,
      made_as: made,
      cut_by: random.pick(['plasma', 'laser', 'waterjet']),
      nick: random.chance(0.3),
      ...(made === 'one piece' && random.chance(0.2) ? { relief: { width: 3, leave: 14 } } : {}),
    },
    tube: { od, wall: random.pick([1.2, 1.6, 2]) },
    primaries: { joint_at_flange: joint },
  };
}
