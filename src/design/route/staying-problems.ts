import { tidy } from '../../base/numbers.js';
import type { Problem } from '../../base/problems.js';

/* What is told where something cannot stay as it is while the rest is routed. */

export const nothingFrozen = (id: string, path: string, built: boolean): Problem => ({
  code: 'route/nothing-frozen',
  severity: 'error',
  what: `${id} ${built ? 'is said to stand already' : 'is to be left as it is'}, but no route of it is frozen beside the job`,
  why: 'the others must be routed round the tube that stands, and nobody knows where it runs',
  fix: `put routes.yaml back beside the job, or give the rows of ${id} by hand`,
  place: { path },
});

export const portMoved = (id: string, moved: number, path: string): Problem => ({
  code: 'route/off-job',
  severity: 'error',
  what: `the frozen route of ${id} starts ${tidy(moved, 3)} mm from where its port now stands, or leans otherwise`,
  why: 'a tube that is built cannot follow its port',
  fix: `set the port of ${id} back, or take ${id} out of primaries.built and route it anew`,
  place: { path },
});

export const offTheTube = (id: string, station: number, length: number, path: string): Problem => ({
  code: 'route/built-off-tube',
  severity: 'error',
  what: `${id} is said to be built up to ${tidy(station, 1)} mm, and its frozen route is ${tidy(length, 1)} mm long`,
  why: 'the weld that it ends at must stand on it',
  fix: `give the station of a weld from the cut list, below ${tidy(length, 1)} mm, or write ${id}: whole`,
  place: { path: `${path}.up_to` },
});

export const tailWanted = (id: string, path: string): Problem => ({
  code: 'route/off-job',
  severity: 'error',
  what: `${id} is to be left as it is, but the frozen routes do not have it built to where the job says`,
  why: 'its old tail need not begin where the tube that stands now ends',
  fix: `put ${id} into --only, so that its tail is found as well`,
  place: { path },
});

export const weldedOnAside = (id: string, length: number, path: string): Problem => ({
  code: 'route/built-off-tube',
  severity: 'error',
  what: `the end of ${id} was measured off its place at ${tidy(length, 1)} mm, and it is said to be built further`,
  why: 'the tube that stands is no longer the one that any rows describe',
  fix: `leave ${id}: { up_to: ${tidy(length, 1)} } until its tail is on, or write ${id}: whole once it is welded to its end`,
  place: { path: `${path}.up_to` },
});

export const nothingOpen: Problem = {
  code: 'route/nothing-open',
  severity: 'error',
  what: 'every primary stands already or is left as it is',
  why: 'there is nothing to find',
  fix: 'name at least one primary to be routed: take it out of primaries.built, or put it into --only',
  place: { path: 'primaries.built' },
};
