import { isMap, LineCounter, parseDocument, visit, type Alias, type Document } from 'yaml';
import type { Outcome, Problem } from '../base/problems.js';
import { inPlainWords } from './yaml-words.js';
import { sourceMap, type Locate, type Spot } from './source-map.js';

/** A text read as YAML: plain data, and where each key of it stands. */
export interface YamlText extends Outcome<Record<string, unknown>> {
  readonly locate: Locate;
}

/** The longest text that is read (characters): a job is a page or two. */
const LARGEST_TEXT = 1_000_000;

/** How many values references may unfold into. */
const MOST_ALIASES = 100;

/** The reader's own words are replaced by ours, and its warnings would go to the terminal. */
const quiet = { prettyErrors: false, logLevel: 'error' } as const;

const nowhere: Locate = () => undefined;

const refuse = (problem: Problem): YamlText => ({ value: undefined, problems: [problem], locate: nowhere });

/** Deeper than any job, and shallow enough for every reader. */
const DEEPEST = 100;

const tooDeep = {
  code: 'job/syntax',
  severity: 'error',
  what: `the brackets or lists are nested more than ${DEEPEST} deep`,
  why: 'a job is at most about 8 levels deep, so this is most likely another file',
  fix: 'close the brackets, or name another file; 8 levels are enough',
} as const;

/** Where brackets are nested too deep, as an offset, told without reading them. */
function deepBracket(text: string): number | undefined {
  let depth = 0;
  for (const bracket of text.matchAll(/[[{}\]]/g)) {
    depth += bracket[0] === '[' || bracket[0] === '{' ? 1 : -1;
    if (depth < 0) depth = 0;
    if (depth > DEEPEST) return bracket.index;
  }
  return undefined;
}

/** What can be told from the bare text, before it is read. */
function wholeFileFault(text: string, file: string | undefined): Problem | undefined {
  const place = { ...(file === undefined ? {} : { file }), line: 1, column: 1 };
  if (text.length > LARGEST_TEXT) {
    return {
      code: 'job/too-large',
      severity: 'error',
      what: `the file holds ${(text.length / 1e6).toFixed(1)} million characters; at most ${LARGEST_TEXT / 1e6} million are read`,
      why: 'a job is a page or two of text, so this is most likely another file',
      fix: 'name the job file, of at most 1 MB; meshes stay in files of their own (mesh: head.stl)',
      place,
    };
  }
  if (text.includes('\0')) {
    return {
      code: 'job/not-text',
      severity: 'error',
      what: 'the file holds zero bytes, which no text in UTF-8 has',
      why: 'it was saved by a word processor or in another encoding, and cannot be read line by line',
      fix: 'save it again as plain text, encoding UTF-8',
      place,
    };
  }
  const deep = deepBracket(text);
  if (deep === undefined) return undefined;
  const before = text.slice(0, deep).split('\n');
  return { ...tooDeep, place: { ...place, line: before.length, column: (before.at(-1)?.length ?? 0) + 1 } };
}

/**
 * Reads a text as YAML 1.2: one document, a mapping of keys to values, with anchors and merges but no
 * bombs of them. A byte order mark is passed over. Nothing is thrown, whatever the text.
 * Where only a key stands twice the data is given all the same (the later value), so that the rest can be
 * checked in the same pass; the problem is an error nevertheless.
 */
export function readYaml(text: string, file?: string): YamlText {
  const fault = wholeFileFault(text, file);
  if (fault) return refuse(fault);
  const lines = new LineCounter();
  const at = (spot: Spot): { file?: string; line: number; column: number } => ({
    ...(file === undefined ? {} : { file }),
    ...spot,
  });
  let document: Document;
  try {
    document = parseDocument(text, { ...quiet, lineCounter: lines, merge: true });
  } catch {
    // The reader's own stack runs out where lists are nested by the thousand.
    return refuse({ ...tooDeep, place: at({ line: 1, column: 1 }) });
  }
  const spot = (offset: number): Spot => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const problems = faultsOf(document, text, spot, at);
  const fatal = problems.some((p) => p.code !== 'job/duplicate-key');
  if (fatal) return { value: undefined, problems, locate: nowhere };
  const locate = sourceMap(document, lines);
  const data = dataOf(document, spot, at);
  return { value: data.value, problems: [...problems, ...data.problems], locate };
}

type At = (spot: Spot) => NonNullable<Problem['place']>;

function faultsOf(document: Document, text: string, spot: (offset: number) => Spot, at: At): Problem[] {
  const problems: Problem[] = [];
  const linesSeen = new Set<number>();
  for (const error of [...document.errors, ...document.warnings]) {
    const where = spot(error.pos[0]);
    // One slip makes the reader stumble several times over; the first on a line tells it.
    if (linesSeen.has(where.line) && error.code !== 'DUPLICATE_KEY') continue;
    linesSeen.add(where.line);
    problems.push({ severity: 'error', ...inPlainWords(error, text), place: at(where) });
  }
  // After a break in the structure the rest of the stumbling is noise.
  const twice = problems.filter((p) => p.code === 'job/duplicate-key');
  const rest = problems.filter((p) => p.code !== 'job/duplicate-key');
  return [...rest.slice(0, 3), ...twice];
}

/** The document's data, or why there is none. */
function dataOf(
  document: Document,
  spot: (offset: number) => Spot,
  at: At,
): Outcome<Record<string, unknown>> {
  const none = (
    offset: number,
    told: Omit<Problem, 'severity' | 'place'>,
  ): Outcome<Record<string, unknown>> => ({
    value: undefined,
    problems: [{ severity: 'error', ...told, place: at(spot(offset)) }],
  });
  const start = document.contents?.range?.[0] ?? 0;
  let data: unknown;
  try {
    data = document.toJS({ maxAliasCount: MOST_ALIASES });
  } catch (fault) {
    if (fault instanceof RangeError)
      return { value: undefined, problems: [{ ...tooDeep, place: at(spot(start)) }] };
    const lost = lostReference(document);
    return none(lost?.range?.[0] ?? start, {
      code: 'job/aliases',
      what: lost
        ? `the reference *${lost.source} stands for nothing that was named before it`
        : `the references (*name) unfold into more than ${MOST_ALIASES} values`,
      why: lost
        ? 'the value it stands for is not known'
        : 'a text of a few lines could fill the memory in this way',
      fix: lost
        ? `write the value itself, or name it (&${lost.source}) on a line above`
        : `write the values out; at most ${MOST_ALIASES} may be repeated by reference`,
    });
  }
  if (data === null || data === undefined) {
    return none(start, {
      code: 'job/empty',
      what: 'the file holds no keys at all',
      why: 'without ports there is nothing to make',
      fix: 'start with 3 lines: `job: my-header`, `units: mm`, `ports: ...`',
    });
  }
  if (!isMap(document.contents) || typeof data !== 'object') {
    return none(start, {
      code: 'job/not-a-mapping',
      what: `the file holds ${Array.isArray(data) ? `a list of ${data.length}` : 'a single value'}, not keys with values`,
      why: 'nothing says which part a value belongs to',
      fix: 'write one key a line: a word, a colon, a space and its value, such as `units: mm`',
    });
  }
  return { value: data as Record<string, unknown>, problems: [] };
}

/** The first reference to something that was never named. */
function lostReference(document: Document): Alias | undefined {
  let lost: Alias | undefined;
  visit(document, {
    Alias: (_, alias) => {
      if (alias.resolve(document) !== undefined) return undefined;
      lost = alias;
      return visit.BREAK;
    },
  });
  return lost;
}

/** One value as it is written in a job: a number, a word, `[1, 2]` or `{ down: 12 }`. */
export function readYamlValue(text: string): { readonly value: unknown } | { readonly reason: string } {
  if (text.trim() === '') return { reason: 'nothing stands after the equals sign' };
  try {
    const document = parseDocument(text, quiet);
    const error = document.errors[0];
    if (error) return { reason: inPlainWords(error, text).what };
    return { value: document.toJS({ maxAliasCount: MOST_ALIASES }) as unknown };
  } catch {
    return { reason: 'the brackets do not close' };
  }
}
