import { angle, choice, count, length, mergePlate, script } from 'tackwright';

export default script({
  about: 'Merge plate for n equal tubes round the axis of a collector.',
  dimensions: {
    tubes: count(4, 'number of tubes', { least: 2, most: 8 }),
    od: length(42.4, 'outside diameter of the tubes', { least: 10, most: 120 }),
    wall: length(1.6, 'wall of the tubes', { least: 0.5, most: 6 }),
    between: length(9, "between neighbouring tubes' surfaces at the collector's mouth", { most: 60 }),
    lean: angle(0, 'half angle at which the tubes lean in; 0 for slip joints', { least: 0, most: 20 }),
    upstream: length(45, "plate's upstream face to the tubes' ends, along the axis", { most: 200 }),
    thickness: length(6, 'plate thickness', { least: 1, most: 30 }),
    gap: length(0.4, 'added to the tube diameter for the holes', { most: 3 }),
    edge: length(10, 'metal outside the holes', { least: 3, most: 60 }),
    leastWeb: length(5, 'least metal between two holes', { least: 1, most: 30 }),
    outline: choice('hugging', ['hugging', 'round'], 'shape of the outline'),
    cutBy: choice('laser', ['plasma', 'laser', 'waterjet'], 'how the plate is cut'),
  },
  draw: (d) =>
    mergePlate({
      ports: { row: { count: d.tubes, pitch: 100 } },
      tube: { od: d.od, wall: d.wall },
      collector: {
        joint: d.lean === 0 ? 'slip' : 'welded',
        at: [0, 0, 0],
        flow: [0, -1, 0],
        ...(d.lean === 0 ? {} : { half_angle: d.lean }),
        slot_gap: d.between,
        clocking: 0,
      },
      merge_plate: {
        thickness: d.thickness,
        gap: d.gap,
        edge: d.edge,
        least_web: d.leastWeb,
        upstream: d.upstream,
        outline: d.outline,
        cut_by: d.cutBy,
      },
    }),
});
