import { angle, choice, count, length, portFlange, script, text } from 'tackwright';

export default script({
  about: 'Port flange for a row of equal ports, a stud above left and below right of each.',
  dimensions: {
    ports: count(4, 'number of ports', { least: 1, most: 8 }),
    pitch: length(92, 'centre of one port to centre of the next', { least: 20, most: 400 }),
    portWidth: length(36, 'port opening along the head', { least: 10, most: 200 }),
    portHeight: length(32, 'port opening across the head', { least: 10, most: 200 }),
    corner: length(12, 'radius of the port corners'),
    down: angle(12, 'lean of the outlets down from square to the face', { least: -45, most: 45 }),
    studRight: length(33, 'stud to port centre, along the head', { least: 5, most: 200 }),
    studUp: length(18, 'stud to port centre, across the head'),
    thread: text('M8', 'stud thread; the clearance hole follows from it'),
    thickness: length(10, 'plate thickness', { least: 3, most: 40 }),
    edge: length(10, 'metal round the ports', { least: 4, most: 40 }),
    tubeOd: length(42.4, 'outside diameter of the tube', { least: 10, most: 120 }),
    tubeWall: length(1.6, 'wall of the tube', { least: 0.5, most: 6 }),
    cutBy: choice('plasma', ['plasma', 'laser', 'waterjet'], 'how the plate is cut'),
  },
  draw: (d) =>
    portFlange({
      ports: {
        shape: { rounded_rectangle: { width: d.portWidth, height: d.portHeight, corner: d.corner } },
        row: { count: d.ports, pitch: d.pitch },
        leaving: { down: d.down },
      },
      studs: {
        thread: d.thread,
        beside_each_port: [
          [-d.studRight, d.studUp],
          [d.studRight, -d.studUp],
        ],
      },
      flange: { thickness: d.thickness, edge: d.edge, web: { height: 30 }, cut_by: d.cutBy },
      tube: { od: d.tubeOd, wall: d.tubeWall },
    }),
});
