import type { flangePages } from '../../src/base/codes/flange.js';

type Sections = Readonly<Record<string, unknown>>;

/** A job that triggers each code, the key it must point at, and words that must be in what was found. */
export const flangeFaults: readonly [keyof typeof flangePages, Sections, string, RegExp][] = [
  ['flange/missing-section', { flange: undefined }, 'flange', /no flange/],
  [
    'flange/in-pieces',
    { flange: { web: { height: 0 } }, ports: { row: { count: 2, pitch: 160 } } },
    'flange.web.height',
    /2 separate pieces/,
  ],
  [
    'flange/thin-web',
    {
      studs: {
        beside_each_port: [
          [-27, 0],
          [36, -22],
        ],
      },
    },
    'studs.beside_each_port.0',
    /mm of metal between .*, least 8 mm/,
  ],
  [
    'flange/thin-neck',
    { flange: { web: { height: 5 }, fillet: 1 }, ports: { row: { count: 2, pitch: 160 } } },
    'flange.web.height',
    /5 mm wide/,
  ],
  [
    'flange/tube-off-metal',
    { flange: { opening: 'port' }, ports: { shape: { circle: { diameter: 44 } } } },
    'flange.opening',
    /outside the tube/,
  ],
  [
    'flange/step-in-flow',
    {
      flange: { opening: 'bore' },
      ports: { shape: { rounded_rectangle: { width: 44, height: 30, corner: 10 } } },
    },
    'flange.opening',
    /P1, P2, P3, P4/,
  ],
  [
    'flange/socket-too-deep',
    { primaries: { joint_at_flange: { socket: { depth: 9 } } } },
    'primaries.joint_at_flange',
    /leaves 1 mm of 10 mm/,
  ],
  [
    'flange/no-room-for-tool',
    {
      studs: {
        beside_each_port: [
          [-30, 4],
          [36, -22],
        ],
      },
      flange: { least_web: 2 },
    },
    'studs.beside_each_port.0',
    /stands .* mm from the tube of P1/,
  ],
  [
    'flange/no-room-for-mark',
    { ports: { row: { count: 1, pitch: 92 } }, flange: { edge: 6, boss: 12, land: 4, least_web: 4 } },
    'flange.edge',
    /TUBE SIDE/,
  ],
  [
    'flange/relief-cuts-through',
    { flange: { relief: { width: 14, leave: 2 } }, ports: { row: { count: 2, pitch: 84 } } },
    'flange.relief.leave',
    /in two/,
  ],
  [
    'flange/plates-overlap',
    { flange: { made_as: 'each' }, ports: { row: { count: 2, pitch: 74 } } },
    'flange.made_as',
    /flange-1 and flange-2 overlap/,
  ],
  ['flange/lean-too-steep', { ports: { leaving: { down: 50 } } }, 'ports.leaving', /leaning 50 deg/],
  [
    'flange/no-room-for-nick',
    { flange: { nick: true, least_web: 8, edge: 8.1 }, tube: undefined },
    'flange.nick',
    /no place for the nick/,
  ],
];
