import { methodMap } from '../charts/methodMap.ts';
import { MODELS } from '../physiology/curves/index.ts';
import {
  type MethodNarrowing,
  type MoreData,
  type Narrowing,
  type NarrowingOptions,
  narrowing,
} from '../physiology/narrowing.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type JobView, job, prose, type StackView, stack } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords, percentWords } from './display.ts';
import { answered } from './methodRows.ts';

type Given = Omit<NarrowingOptions, 'draws'> & {
  display: Display;
  /** Ids of the methods that are told of in words. */
  chosen: readonly string[];
};

/** Draws of each case: ends of an interval to some 4 % of its width. */
const DRAWS = 1000;

/** Which repeat reading, added stage or finer steps would narrow the intervals, found out by simulation. */
export function showNarrowing(
  result: SamplingResult,
  readings: Readings,
  { display, chosen, ...given }: Given,
): JobView {
  return job({
    label: 'What one more sample would bring',
    begin: 'at-rest',
    before: null,
    *steps() {
      for (const found of narrowing(readings, { ...given, draws: DRAWS })) {
        const text = `${found.steps.length} cases`;
        yield { share: found.share, text, shown: () => narrowingView(result, found, { display, chosen }) };
      }
    },
  });
}

function narrowingView(
  result: SamplingResult,
  found: Narrowing,
  { display, chosen }: Pick<Given, 'display' | 'chosen'>,
): StackView {
  const names = new Map(answered(result).map(({ id, name }) => [id, name]));
  const words = chosen.flatMap((id) => {
    const one = found.methods.find(({ method }) => method === id);
    return one && names.has(id) ? [`- *${names.get(id)}:* ${bestWords(one, found.steps, display)}`] : [];
  });
  return stack(prose`${words.join('\n')}`, narrowingMap(result, found, display));
}

const MEANS = {
  repeat: (x: string) => `a second sample at ${x}`,
  added: (x: string) => `a stage more at ${x}`,
  finer: (x: string) => `steps of ${x}`,
} as const;

function bestWords(
  { best, ratios, width }: MethodNarrowing,
  steps: readonly MoreData[],
  display: Display,
): string {
  if (width === null) return 'its interval has no width to narrow, for an end lies beyond the tested range.';
  const told = (Object.keys(MEANS) as MoreData['kind'][]).flatMap((kind) => {
    const k = best[kind];
    if (k === null) return [];
    const less = percentWords(1 - ratios[k]!);
    return [`${MEANS[kind](intensityWords(steps[k]!.x, display))} narrows the interval by ${less}`];
  });
  return told.length === 0 ? 'nothing of this narrows its interval noticeably.' : `${told.join('; ')}.`;
}

function narrowingMap(result: SamplingResult, { curve, steps, methods }: Narrowing, display: Display) {
  const byMethod = new Map(methods.map((one) => [one.method, one]));
  const marks = { repeat: '', added: '+', finer: '½ ' };
  const rows = answered(result).flatMap(({ id, name, claim }) => {
    const one = byMethod.get(id);
    if (!one || one.width === null || one.width === 0) return [];
    const fields = one.ratios.map((ratio) =>
      ratio === null ? null : { shade: ratio - 1, text: changeText(ratio) },
    );
    return [{ name, claim, fields }];
  });
  return methodMap({
    rows,
    columns: steps.map(({ kind, x }) => `${marks[kind]}${bareIntensity(x, display)}`),
    columnTitle: `Sample repeated, stage added (+), steps of (½), ${display.unit}`,
    title: 'What one more sample would bring',
    summary:
      'Change of the width of the 95 % interval, per cent; below some 5 it is chance. A repeat is taken to read what the first sample read' +
      (curve === null ? '.' : `, an added stage what the ${MODELS[curve].short} says.`),
  });
}

const changeText = (ratio: number): string => {
  const change = Math.round(100 * (ratio - 1));
  return change === 0 ? '·' : change > 0 ? `+${change}` : `−${-change}`;
};
