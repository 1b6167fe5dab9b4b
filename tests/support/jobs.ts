/** Good jobs, as a bench would write them. Everything in them is invented. */

/** A whole header: every section, four ports in a row. */
export const wholeJob = `
job: hillclimb-four            # names the export folder
units: mm
engine: { cylinders: 4, firing_order: [1, 3, 4, 2], capacity: 1998 cc, tuned_for: 7200 rpm }
ports:
  shape: { rounded_rectangle: { width: 38, height: 34, corner: 12 } }
  row: { count: 4, pitch: 92 }
  leaving: { down: 12 }
studs:
  thread: M8
  beside_each_port: [[-33, 20], [33, -20]]
flange: { thickness: 10, material: "304", edge: 10, boss: 13.5, web: { height: 30 }, fillet: 8, least_web: 8, made_as: one piece, cut_by: plasma }
strongback: { thickness: 20, margin: 15 }
tube: { od: 42.4, wall: 1.6, material: "304" }
primaries:
  stub: 30
  between: 5
  last_straight: 60
  joint_at_flange: butt
  least_angle: 5
  largest_angle: 150
  by_hand: {}
collector:
  kind: merge
  joint: slip
  at: { right: 150, up: -400, out: 180 }
  flow: { right: 0.2, up: -1, out: 0.15 }
  half_angle: 8
  clocking: 45
  slot_gap: 5
  slip: { depth: 45, gap: 0.4 }
  body: { length: 160, diameter: 110, clear: 4 }
  outlet: { od: 60.3 }
  may_move: { along: 25, across: 10, tilt: 3 }
  slots: shortest
merge_plate: { thickness: 6, cut_by: laser, outline: round, star_hole: 12, bolt_ring: { count: 6, thread: M8, circle: 140 } }
length: { target: 800, spread: 2 }
rack: rack.yaml
keep_outs:
  - { name: cylinder head, box: { from: [-75, -90, -300], to: [345, 150, -10] }, clear: 8, head_of: [P1, P2, P3, P4] }
  - { name: steering shaft, kind: steering, cylinder: { from: [-285, -60, 60], to: [255, -330, 190], diameter: 24 }, fixed_to: body }
  - { name: subframe, mesh: subframe.stl, clear: 10 }
  - { name: ground, plane: { at: [0, -640, 0], normal: [0, 1, 0] } }
clear: { tube_to_tube: 6, near_slots: 4, keep_out: 8 }
wrench: { tool: socket }
tack_fixture:
  cradle: { width: 20, clearance: { straight: 0.3, bend: 0.6 }, embrace: 170, strap: { width: 13, depth: 3 }, at: [{ primary: P1, station: 120 }] }
  base: { at: [0, -700, 0], normal: [0, 1, 0] }
  printer_bed: [220, 220, 250]
`;

/** The least that can be cut: a flange for one round port. */
export const flangeJob = `
job: single
ports:
  shape: { circle: { diameter: 36 } }
  row: { count: 1 }
studs: { thread: M8, at: [[-30, 0], [30, 0]] }
flange: {}
`;

/** In inches, with fractions and a gauge; every port by itself, twin V, each port on its own face. */
export const inchJob = `
job: vee-twin
units: in
engine: { cylinders: 2, capacity: 61 ci }
ports:
  shape: { circle: { diameter: 1-1/2 } }
  each:
    - { at: [0, 0, 0], leaving: { down: 10 }, face: { normal: [0.6, 0, 0.8] } }
    - { at: [-7.5, -1, 0], leaving: { down: 10, right: -5 }, face: { normal: [-0.6, 0, 0.8] } }
studs: { thread: 5/16, beside_each_port: [[-1-1/8 in, 0], ["1 1/8\\"", 0]] }
flange: { thickness: 3/8 in, made_as: each, cut_by: waterjet }
tube: { od: 1-5/8, wall: 16 ga, material: mild steel }
`;

/** A job that is only routed: directions measured, collector welded, nothing to cut. */
export const routedJob = `
job: routed
engine: { cylinders: 2 }
ports:
  each:
    - { at: [0, 0, 0], direction: [0, -1, 0] }
    - { at: [-140, 0, 0], direction: [0, -1, 0] }
tube: { od: 42.4, wall: 1.6, material: '304' }
primaries: { stub: 20, between: 5, last_straight: 45, least_angle: 5, largest_angle: 150 }
collector:
  joint: welded
  at: { right: -410, up: -190, out: -190 }
  flow: { down: 0, heading: -90 }
  half_angle: 5
  slot_gap: 4
length: { between: [750, 1000], spread: 0.1 }
rack: rack.yaml
keep_outs:
  - { name: sump, clear: 10, box: { from: [-210, -110, -285], to: [110, 60, -95] } }
`;
