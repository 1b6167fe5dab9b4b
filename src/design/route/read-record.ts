import type { Outcome, Problem } from '../../base/problems.js';
import type { Vector } from '../../base/vectors.js';
import { readYaml, type YamlText } from '../../read/yaml.js';
import type { PrimaryRecord, RecordRow, RouteRecord, StartRecord } from './record.js';

/** A record as read, and where in its file each key stands. */
export type ReadRecord = Outcome<RouteRecord> & Pick<YamlText, 'locate'>;

/**
 * Reads a frozen or hand-made route record (YAML, or JSON, which is YAML too). All faults are gathered, each
 * at its line; whether the record fits a job is another question.
 */
export function readRouteRecord(text: string, file: string): ReadRecord {
  const yaml = readYaml(text, file);
  const { locate } = yaml;
  if (yaml.value === undefined) return { value: undefined, problems: yaml.problems.map(ofRecord), locate };
  const problems: Problem[] = [...yaml.problems];
  const fault = (path: string, what: string, fix: string): undefined => {
    const place = { file, path, ...yaml.locate(path) };
    const why = 'tubes cut from a record that cannot be read whole would not meet';
    problems.push({ code: 'route/bad-record', severity: 'error', what, why, fix, place });
    return undefined;
  };
  const reader = new RecordReader(fault);
  const record = reader.record(yaml.value);
  const broken = problems.some((problem) => problem.severity === 'error');
  return { value: broken ? undefined : record, problems, locate };
}

/** The text reader speaks of jobs; an empty record is told in its own words. */
const ofRecord = (problem: Problem): Problem =>
  problem.code === 'job/empty'
    ? {
        ...problem,
        code: 'route/bad-record',
        why: 'without a record nothing says how the tubes run',
        fix: 'remove this 1 file, or run `tackwright route`, which writes it',
      }
    : problem;

/** No length, place or angle of a header comes near this, mm or degrees. */
const LARGEST = 20_000;

type Fault = (path: string, what: string, fix: string) => undefined;
type Data = Readonly<Record<string, unknown>>;

const isData = (value: unknown): value is Data =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** What is no text is no hash: such a file counts as changed. */
const hashesIn = (data: Data): Record<string, string> =>
  Object.fromEntries(Object.entries(data).map(([name, hash]) => [name, String(hash)]));

/** Takes the record apart, telling of every value that is not what it should be. */
class RecordReader {
  constructor(private readonly fault: Fault) {}

  record(data: Data): RouteRecord {
    const collector = this.data(data['collector'], 'collector');
    if (data['unit'] !== 'mm')
      this.fault(
        'unit',
        `unit is ${JSON.stringify(data['unit']) ?? 'missing'}`,
        'write unit: mm, and its 1 unit throughout',
      );
    const primaries = Array.isArray(data['primaries']) ? data['primaries'] : [];
    if (primaries.length === 0) this.fault('primaries', 'there are no primaries', 'list at least one');
    const ids = primaries.map((one: unknown) => (isData(one) ? one['id'] : undefined));
    ids.forEach((id, i) => {
      if (ids.indexOf(id) < i)
        this.fault(`primaries.${i}.id`, `${String(id)} stands twice`, 'take 1 of them out');
    });
    return {
      unit: 'mm',
      job: String(data['job'] ?? ''),
      ...(typeof data['jobHash'] === 'string' ? { jobHash: data['jobHash'] } : {}),
      seed: typeof data['seed'] === 'number' ? data['seed'] : 0,
      ...(isData(data['keep_outs']) ? { keep_outs: hashesIn(data['keep_outs']) } : {}),
      length: this.number(data['length'], 'length'),
      collector: {
        at: this.vector(collector['at'], 'collector.at'),
        flow: this.vector(collector['flow'], 'collector.flow'),
        clocking: this.number(collector['clocking'], 'collector.clocking'),
      },
      primaries: primaries.map((primary: unknown, i) => this.primary(primary, `primaries.${i}`)),
    };
  }

  private primary(value: unknown, path: string): PrimaryRecord {
    const data = this.data(value, path);
    const end = this.data(data['end'], `${path}.end`);
    const built = data['built'] === undefined ? undefined : this.data(data['built'], `${path}.built`);
    return {
      id: String(data['id'] ?? ''),
      slot: String(data['slot'] ?? ''),
      ...(built && {
        built: {
          length: this.number(built['length'], `${path}.built.length`),
          start: this.start(built['start'], `${path}.built.start`),
          rows: this.rows(built['rows'], `${path}.built.rows`),
        },
      }),
      start: this.start(data['start'], `${path}.start`),
      rows: this.rows(data['rows'], `${path}.rows`),
      end: {
        at: this.vector(end['at'], `${path}.end.at`),
        direction: this.vector(end['direction'], `${path}.end.direction`),
      },
      length: this.number(data['length'], `${path}.length`),
    };
  }

  private start(value: unknown, path: string): StartRecord {
    const data = this.data(value, path);
    return {
      at: this.vector(data['at'], `${path}.at`),
      direction: this.vector(data['direction'], `${path}.direction`),
      clock_reference: this.vector(data['clock_reference'], `${path}.clock_reference`),
    };
  }

  private rows(value: unknown, path: string): readonly RecordRow[] {
    const rows = Array.isArray(value) ? (value as unknown[]) : [];
    if (rows.length % 2 === 0)
      this.fault(path, `${rows.length} rows`, 'begin and end with a straight: an odd number of rows');
    return rows.map((row, i) => this.row(row, `${path}.${i}`, i % 2 === 1));
  }

  private row(value: unknown, path: string, bend: boolean): RecordRow {
    const data = this.data(value, path);
    const keys = Object.keys(data).sort().join(', ');
    const wanted = bend ? 'angle, clock, clr' : 'straight';
    if (keys !== wanted)
      this.fault(path, `a row of ${keys || 'nothing'}`, `write ${wanted} here: rows alternate`);
    if (!bend) {
      const straight = this.number(data['straight'], `${path}.straight`);
      if (straight < 0) this.fault(`${path}.straight`, `a straight of ${straight} mm`, 'give 0 or more');
      return { straight };
    }
    const [clr, angle] = [
      this.number(data['clr'], `${path}.clr`),
      this.number(data['angle'], `${path}.angle`),
    ];
    if (clr <= 0) this.fault(`${path}.clr`, `a CLR of ${clr} mm`, 'give the radius of a bend on the rack');
    if (angle <= 0 || angle >= 180)
      this.fault(`${path}.angle`, `an angle of ${angle} deg`, 'give over 0 and under 180');
    return { clr, angle, clock: this.number(data['clock'], `${path}.clock`) };
  }

  private data(value: unknown, path: string): Data {
    if (isData(value)) return value;
    this.fault(path, `no mapping at ${path}`, 'write its keys, as in a record that `route` made');
    return {};
  }

  private number(value: unknown, path: string): number {
    if (typeof value === 'number' && Math.abs(value) <= LARGEST) return value;
    if (typeof value === 'number')
      this.fault(path, `${path} is ${value}`, `write a number up to ${LARGEST}, in mm or degrees`);
    else this.fault(path, `${path} is ${JSON.stringify(value) ?? 'missing'}`, 'write a number');
    return 0;
  }

  private vector(value: unknown, path: string): Vector {
    if (
      Array.isArray(value) &&
      value.length === 3 &&
      value.every((v) => typeof v === 'number' && Math.abs(v) <= LARGEST)
    )
      return value as unknown as Vector;
    this.fault(path, `${path} is no place or direction`, 'write three numbers: [right, up, out]');
    return [0, 0, 1];
  }
}
