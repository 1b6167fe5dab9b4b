/* eslint-disable @typescript-eslint/explicit-module-boundary-types -- the type of a schema is the schema itself */
import { waysOfCutting } from '../tables/cutting.js';
import type { Leaves } from './leaf.js';
import { list, maybe, section, spot } from './shapes.js';

const cutBy = (l: Leaves) =>
  maybe(
    l.choice(waysOfCutting, {
      says: 'how the plate is cut: decides the least holes and webs',
      example: 'plasma',
    }),
  );
const material = (l: Leaves) =>
  maybe(l.word({ says: 'what the plate is made of', example: '"304"', most: 40 }));
const thickness = (l: Leaves, example: string) =>
  maybe(
    l.length({
      says: 'the thickness of the plate',
      low: 1,
      high: 60,
      example,
      why: 'nothing thinner holds its shape under a weld, and nothing thicker is cut for a header',
    }),
  );
const fillet = (l: Leaves) =>
  maybe(
    l.length({
      says: 'the radius of inside corners of the outline',
      low: 0.5,
      high: 100,
      example: '8',
      why: 'cracks start in sharp inside corners',
    }),
  );
const leastWeb = (l: Leaves) =>
  maybe(l.length({ says: 'the least metal left between any two edges', low: 0.5, high: 50, example: '8' }));
const flagged = (l: Leaves, says: string) => maybe(l.flag({ says, example: 'true' }));

export function flangeSection(l: Leaves) {
  return section('the plate that bolts to the head', {
    thickness: thickness(l, '10'),
    material: material(l),
    edge: maybe(
      l.length({ says: "metal round a port's opening and the tube's end", low: 2, high: 80, example: '10' }),
    ),
    boss: maybe(
      l.length({ says: 'the radius of the outline round a stud', low: 4, high: 80, example: '13.5' }),
    ),
    web: maybe(
      section('the bar along the ports', {
        height: l.length({ says: 'its height; 0 leaves it out', low: 0, high: 300, example: '30' }),
      }),
    ),
    fillet: fillet(l),
    least_web: leastWeb(l),
    made_as: maybe(
      l.choice(['one piece', 'each', 'pairs'], {
        says: 'one plate for all ports, one for each, or one for every two',
      }),
    ),
    cut_by: cutBy(l),
    opening: maybe(
      l.choice(['auto', 'port', 'bore', 'blend'], {
        says: 'how the plate is opened: the port, the bore of the tube, or both marked for the die grinder',
      }),
    ),
    opening_margin: maybe(
      l.length({ says: "added to the port's outline on each side", low: 0, high: 10, example: '1' }),
    ),
    land: maybe(l.length({ says: 'gasket land left all round an opening', low: 0, high: 40, example: '6' })),
    cut_small_holes: flagged(
      l,
      'cut holes that are small for the process, instead of marking them for the drill',
    ),
    relief: maybe(
      section('slots cut up into the web between neighbouring ports', {
        width: l.length({ says: 'how wide they are', low: 0.5, high: 20, example: '3' }),
        leave: l.length({ says: 'metal left uncut', low: 2, high: 100, example: '10' }),
      }),
    ),
    etch: flagged(l, 'mark port numbers, clock-zero ticks, TUBE SIDE and the name of the job'),
    nick: flagged(l, 'a nick in the outline that shows which way round, for those who cannot etch'),
    dowels: maybe(
      list(
        'holes for dowels',
        section('one dowel', {
          at: spot(l, 'its place on the face, from port 1'),
          hole: l.length({ says: 'the diameter of its hole', low: 1, high: 40, example: '6' }),
        }),
        0,
        12,
      ),
    ),
  });
}

export function strongbackSection(l: Leaves) {
  return section("a thick plate with the flange's holes: welding clamp, datum and test blank", {
    thickness: thickness(l, '20'),
    material: material(l),
    margin: maybe(
      l.length({ says: "how far its outline stands outside the flange's", low: 0, high: 200, example: '15' }),
    ),
    cut_by: cutBy(l),
  });
}

export function mergePlateSection(l: Leaves) {
  return section("a flat plate with a hole for every primary at the collector's mouth", {
    thickness: thickness(l, '6'),
    material: material(l),
    cut_by: cutBy(l),
    upstream: maybe(
      l.length({
        says: "where it stands on the collector's axis, upstream of the tubes' ends",
        low: -200,
        high: 400,
        example: '45',
      }),
    ),
    gap: maybe(
      l.length({ says: "added to the tube's diameter for the holes", low: 0, high: 6, example: '0.4' }),
    ),
    outline: maybe(
      l.choice(['hugging', 'round'], { says: 'an outline that hugs the tubes, or a round one' }),
    ),
    edge: maybe(l.length({ says: 'metal outside the holes', low: 1, high: 80, example: '10' })),
    fillet: fillet(l),
    least_web: leastWeb(l),
    centre_tube: maybe(
      l.length({
        says: 'the diameter of a tube in the middle of the ring',
        low: 5,
        high: 150,
        example: '42.4',
      }),
    ),
    star_hole: maybe(
      l.length({
        says: 'the diameter of a hole in the star between the tubes',
        low: 1,
        high: 100,
        example: '10',
      }),
    ),
    bolt_ring: maybe(
      section('bolt holes round the plate', {
        count: l.count({ says: 'how many bolts', low: 2, high: 24, example: '6' }),
        thread: maybe(l.word({ says: 'the thread of the bolts', example: 'M8', most: 20 })),
        hole: maybe(l.length({ says: 'the diameter of their holes', low: 2, high: 40, example: '9' })),
        circle: maybe(
          l.length({ says: 'the diameter of the circle they stand on', low: 20, high: 600, example: '150' }),
        ),
      }),
    ),
    etch: flagged(l, 'mark slot numbers and the name of the job'),
  });
}
