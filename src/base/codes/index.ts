import { buildPages } from './build.js';
import { cradlePages } from './cradle.js';
import { filePages } from './file.js';
import { flangePages } from './flange.js';
import { jobPages } from './job.js';
import { keepOutPages } from './keep-out.js';
import { mergePages } from './merge.js';
import type { Page } from './page.js';
import { piecesPages } from './pieces.js';
import { rackPages } from './rack.js';
import { routePages } from './route.js';
import { servicePages } from './service.js';
import { solidPages } from './solid.js';

/** Every code a problem can carry, with the page that `explain` prints. One file an area. */
export const pages = {
  ...jobPages,
  ...flangePages,
  ...mergePages,
  ...cradlePages,
  ...rackPages,
  ...keepOutPages,
  ...piecesPages,
  ...routePages,
  ...servicePages,
  ...solidPages,
  ...filePages,
  ...buildPages,
} satisfies Record<string, Page>;

export type Code = keyof typeof pages;

/** The page of a code. */
export const pageOf = (code: Code): Page => pages[code];
