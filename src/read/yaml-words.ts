import type { YAMLError } from 'yaml';
import type { Problem } from '../base/problems.js';

type Told = Pick<Problem, 'code' | 'what' | 'why' | 'fix'>;

const why = 'it cannot be told which value belongs to which key';

/** The sign or word at which reading stopped. */
function wordAt(text: string, offset: number): string {
  const word = /^[^\s,{}[\]]+|^\S/.exec(text.slice(offset, offset + 40));
  return word ? word[0] : 'the end of the line';
}

/** What the reader of YAML stumbled over, said for somebody who has never read its standard. */
export function inPlainWords(error: YAMLError, text: string): Told {
  const word = wordAt(text, error.pos[0]);
  switch (error.code) {
    case 'DUPLICATE_KEY':
      return {
        code: 'job/duplicate-key',
        what: `the key "${word.replace(/:$/, '')}" stands twice in one section`,
        why: 'only one of the two values can hold, and the other would be lost in silence',
        fix: 'take out one of the two lines',
      };
    case 'TAB_AS_INDENT':
      return {
        code: 'job/tab',
        what: 'the line starts with a tab',
        why: 'a tab is as wide as the editor likes, so the depth of the line cannot be told',
        fix: 'indent with spaces: 2 for each step',
      };
    case 'MULTIPLE_DOCS':
      return {
        code: 'job/several-documents',
        what: 'a second document begins here (a line of three dashes)',
        why: 'a job file holds one job, and it is not known which of them is meant',
        fix: 'take the dashes out, or give each job a file of its own',
      };
    case 'BAD_ALIAS':
      return {
        code: 'job/aliases',
        what: `the reference ${word} cannot be used here`,
        why: 'a reference stands for a value that was named before it',
        fix: 'write the value itself, or name it (&name) on a line above',
      };
    case 'MISSING_CHAR':
      return /quote/.test(error.message)
        ? told('a quotation mark is opened but not closed', 'close it on the same line, such as "304"')
        : told(
            `"${word}" is a key without a colon, or stands too far left or right`,
            'write a colon and a space after the key',
          );
    case 'BAD_INDENT':
      return told(
        'the line stands at the wrong depth, or a bracket above it was not closed',
        'line it up with its neighbours (2 spaces for each step), or close the bracket',
      );
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'MULTILINE_IMPLICIT_KEY':
      return told(
        `"${word}" does not fit here: a second colon on the line, no space after a colon, or a wrong depth`,
        'put each key on its own line, a space after its colon, under its neighbours',
      );
    case 'BAD_SCALAR_START':
      return told(`a value may not start with ${word[0] ?? word}`, `put it in quotation marks: "${word}"`);
    case 'TAG_RESOLVE_FAILED':
      return told(
        `${word} is a type mark that jobs do not use`,
        `take it out, or put the text in quotation marks`,
      );
    case 'BAD_DQ_ESCAPE':
      return told(
        'a backslash in a quoted text is not followed by a known letter',
        "use single quotes: 'as it is'",
      );
    default:
      return told(
        `reading stopped at ${word}`,
        'look for a lost colon, comma, quote or bracket here or on the line above',
      );
  }
}

const told = (what: string, fix: string): Told => ({ code: 'job/syntax', what, why, fix });
