import { type Page } from './page.js';

export const jobPages = {
  'job/bug': {
    exit: 1,
    title: 'A fault of the program itself',
    text: 'The program reached a state that its author thought impossible while working on this part. Nothing was written. Please report it with the job file.',
  },
} as const satisfies Record<string, Page>;
