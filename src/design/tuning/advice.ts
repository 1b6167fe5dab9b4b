import { degrees, radians, tidy } from '../../base/numbers.js';
import type { Job } from '../../job/job.js';
import { boreAtSpeed, ruleOf21 } from './bore.js';
import { footPerSecond } from './inch.js';
import { ruleOf850, thereAndBack, waveSpeed, type Band } from './length.js';

/** What one formula gives, mm. */
export interface FormulaBand extends Band {
  readonly formula: string;
}

/** Where a value of the job stands to a band. */
export type Standing = 'within' | 'partly within' | 'below' | 'above';

/** Length and bore by published formulas: bands, not the truth. mm. */
export interface TuningAdvice {
  readonly lengths: readonly FormulaBand[];
  /** From the least of all formulas to the greatest. */
  readonly length: Band;
  /** How many times the shortest middle of a band the longest is. */
  readonly apart: number;
  readonly window: (Band & { readonly standing: Standing }) | undefined;
  readonly bores: readonly FormulaBand[];
  readonly bore: Band;
  readonly tube: { readonly bore: number; readonly standing: Standing } | undefined;
  readonly assumed: readonly string[];
}

/** Gas between these (degrees C) on its way down a primary; what it is made of moves the speed by 3 %. Assumed. */
const GAS = { cool: 400, hot: 700 } as const;
/** Ratio of heats and gas constant: exhaust gas, and air, which bounds it from above. Assumed. */
const EXHAUST = { gamma: 1.3, constant: 290 } as const;
const AIR = { gamma: 1.4, constant: 287.05 } as const;
/** Where the job does not say when the exhaust valve opens (degrees before bottom dead centre). Assumed. */
const OPENS = { early: 80, late: 60 } as const;
/** Mean gas speeds (ft/s) that articles on headers give. */
const SPEEDS = { slow: 240, fast: 260 } as const;
/** Inches that the rule of 850 takes off, by the book and by those who leave it out. */
const TAKEN_OFF = { most: 3, least: 0 } as const;

const around = (bands: readonly Band[]): Band => ({
  low: Math.min(...bands.map(({ low }) => low)),
  high: Math.max(...bands.map(({ high }) => high)),
});
const middleOf = ({ low, high }: Band): number => (low + high) / 2;

/** Where a range stands to a band. */
function standingOf(own: Band, band: Band): Standing {
  if (own.low >= band.low && own.high <= band.high) return 'within';
  if (own.high < band.low) return 'below';
  return own.low > band.high ? 'above' : 'partly within';
}

/**
 * Primary length and bore by the books, for the speed the job tunes for. Lengths are from the exhaust valve.
 * Undefined where the job does not give the engine's capacity and the speed it is tuned for.
 */
export function tuningAdvice(job: Pick<Job, 'engine' | 'length' | 'tube'>): TuningAdvice | undefined {
  const { engine, tube } = job;
  const { capacity, tunedFor: rpm } = engine ?? {};
  if (engine === undefined || capacity === undefined || rpm === undefined) return undefined;
  const cylinder = capacity / engine.cylinders;
  const opens = engine.exhaustOpens;
  const early = opens ?? radians(OPENS.early);
  const late = opens ?? radians(OPENS.late);
  const slow = waveSpeed(EXHAUST.gamma, EXHAUST.constant, GAS.cool);
  const fast = waveSpeed(AIR.gamma, AIR.constant, GAS.hot);
  const wave = (share: number): Band => ({
    low: thereAndBack(slow, share * (Math.PI + late), rpm),
    high: thereAndBack(fast, share * (Math.PI + early), rpm),
  });
  const rule: Band = {
    low: Math.max(0, ruleOf850(late, rpm, TAKEN_OFF.most)),
    high: ruleOf850(early, rpm, TAKEN_OFF.least),
  };
  const lengths: FormulaBand[] = [
    { formula: 'reflected wave back once, at top dead centre', ...wave(1) },
    { formula: 'reflected wave back twice by top dead centre', ...wave(1 / 2) },
    { formula: 'handbook rule of 850', ...rule },
  ];
  const byTheBook = (opening: number): number =>
    ruleOf21(cylinder, Math.max(0, ruleOf850(opening, rpm, TAKEN_OFF.most)));
  const bores: FormulaBand[] = [
    {
      formula: `mean gas speed of ${SPEEDS.slow} to ${SPEEDS.fast} ft/s`,
      low: boreAtSpeed(cylinder, rpm, SPEEDS.fast * footPerSecond),
      high: boreAtSpeed(cylinder, rpm, SPEEDS.slow * footPerSecond),
    },
    { formula: 'handbook rule of 2.1', low: byTheBook(early), high: byTheBook(late) },
  ];
  const length = around(lengths);
  const bore = around(bores);
  const middles = lengths.map(middleOf);
  const window = job.length && { low: job.length.from, high: job.length.to };
  const own = tube && tube.od - 2 * tube.wall;
  return {
    lengths,
    length,
    apart: Math.max(...middles) / Math.min(...middles),
    window: window && { ...window, standing: standingOf(window, length) },
    bores,
    bore,
    tube: own === undefined ? undefined : { bore: own, standing: standingOf({ low: own, high: own }, bore) },
    assumed: [
      `exhaust valve opens ${opens === undefined ? `${OPENS.late} to ${OPENS.early}` : tidy(degrees(opens), 1)} deg before bottom dead centre${opens === undefined ? ' (engine.exhaust_opens is not given)' : ''}`,
      `gas of ${GAS.cool} to ${GAS.hot} degrees C, so waves of ${tidy(slow, 0)} to ${tidy(fast, 0)} m/s`,
      'lengths from the exhaust valve: take off the port inside the head',
    ],
  };
}
