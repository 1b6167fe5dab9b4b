import { angle, length, script, text, tubeCradle, yesOrNo } from 'tackwright';

export default script({
  about: 'Printed cradle that holds a tube for tacking, on a straight or on a bend.',
  dimensions: {
    name: text('P1-1', 'engraved on its face; also names the file'),
    od: length(42.4, 'outside diameter of the tube', { least: 10, most: 120 }),
    height: length(60, 'bench to the centre line of the tube', { least: 15, most: 400 }),
    tilt: angle(0, 'rise of the tube along the flow', { least: -45, most: 45 }),
    onBend: yesOrNo(false, 'whether it sits on a bend'),
    clr: length(63.6, 'centre-line radius of the bend', { least: 15, most: 500 }),
    clock: angle(90, 'which way the bend turns: 0 up, 90 to the right of the flow seen from above'),
    width: length(20, 'width of the cradle along the tube', { least: 8, most: 100 }),
    wall: length(6, 'plastic beside and under the tube', { least: 2, most: 40 }),
    embrace: angle(170, 'how far round the tube the saddle reaches', { least: 40, most: 180 }),
  },
  draw: (d) =>
    tubeCradle({
      name: d.name,
      od: d.od,
      height: d.height,
      tilt: d.tilt,
      ...(d.onBend ? { bend: { clr: d.clr, clock: d.clock } } : {}),
      width: d.width,
      wall: d.wall,
      embrace: d.embrace,
    }),
});
