import type { Command } from 'commander';
import { type Code, pageOf, pages } from '../../base/codes/index.js';
import { didYouMean } from '../../base/suggest.js';
import type { Session } from '../session.js';
import { voiceOf } from '../shell.js';

const meaning = {
  1: 'a fault of the program',
  2: 'the job is wrong',
  3: 'the job is right but cannot be made',
} as const;

/** `explain CODE`: the page behind a problem's code; without a code, the list of them all. */
export function addExplain(program: Command, { shell, leave }: Session): void {
  program
    .command('explain')
    .description('explain a problem by its code, such as flange/thin-web; without a code list them all')
    .argument('[code]', 'as printed in brackets behind a problem')
    .option('--json', 'print as JSON')
    .action((code: string | undefined, options: { json?: boolean }) => {
      const { say, complain, paint } = voiceOf(shell);
      const codes = Object.keys(pages) as Code[];
      if (code === undefined) {
        if (options.json) say(JSON.stringify(pages, null, 2));
        else for (const each of codes) say(`${each.padEnd(28)} ${pageOf(each).title}`);
        return;
      }
      const known = codes.find((each) => each === code);
      if (known === undefined) {
        complain(
          `There is no problem code ${code}.${didYouMean(code, codes)} Without a code, all are listed.`,
        );
        leave(2);
        return;
      }
      const page = pageOf(known);
      if (options.json) say(JSON.stringify({ code: known, ...page }, null, 2));
      else
        say(
          `${paint.strong(known)}: ${page.title}\n\n${page.text}\n\nExit code ${page.exit}: ${meaning[page.exit]}.`,
        );
    });
}
