import type { Broken } from './broken.js';

/** Legal but unwise. */
export const brokenAdvice: readonly Broken[] = [
  {
    code: 'job/thin-flange',
    from: 'thickness: 10, material',
    to: 'thickness: 5, material',
    path: 'flange.thickness',
    at: '5, material',
  },
  { code: 'job/sharp-fillet', from: 'fillet: 8', to: 'fillet: 2', path: 'flange.fillet', at: '2, least' },
  {
    code: 'job/narrow-edge',
    from: 'edge: 10, boss',
    to: 'edge: 5, boss',
    path: 'flange.edge',
    at: '5, boss',
  },
  {
    code: 'job/short-straight',
    from: 'stub: 30',
    to: 'stub: 12',
    path: 'primaries.stub',
    at: '12\n  between',
  },
  {
    code: 'job/short-straight',
    from: 'last_straight: 60',
    to: 'last_straight: 50',
    path: 'primaries.last_straight',
    at: '50',
  },
  {
    code: 'job/thin-wall',
    from: 'wall: 1.6, material',
    to: 'wall: 0.7, material',
    path: 'tube.wall',
    at: '0.7',
  },
  {
    code: 'job/small-clearance',
    from: 'kind: steering, ',
    to: 'kind: steering, clear: 12, ',
    path: 'keep_outs.1.clear',
    at: '12, cyl',
    says: /25 mm is usual/,
  },
  {
    code: 'job/same-name',
    from: '{ name: ground,',
    to: '{ name: subframe,',
    path: 'keep_outs.3.name',
    at: 'subframe, plane',
    says: /call this one "subframe 2"/,
  },
  {
    code: 'job/usual-clearance',
    from: 'rack: rack.yaml',
    to: 'rack: rack.yaml',
    path: 'keep_outs.1',
    at: '{ name: steering',
  },
  {
    code: 'job/unknown-material',
    from: 'wall: 1.6, material: "304"',
    to: 'wall: 1.6, material: unobtainium',
    path: 'tube.material',
    at: 'unobtainium',
  },
];
