import { InputError } from '../base/inputError.ts';
import type { Axis } from '../base/units.ts';
import { truthChart } from '../charts/truthChart.ts';
import { BASELINE_NAMES } from '../physiology/baseline.ts';
import { MODELS } from '../physiology/curves/index.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { BaselineRule, CurveId } from '../physiology/stepTest.ts';
import {
  type ChartView,
  onlyLive,
  type ProseView,
  prose,
  type StackView,
  type TableView,
  table,
} from '../view/view.ts';
import { bareIntensity, type Display } from './display.ts';
import { type Answered, answered } from './methodRows.ts';
import { type MovedFigure, movedRow, movedWords, sayMoved } from './movedFigures.ts';

/** Every method's figure under one setting, as plain as JSON. */
export interface KeptFigures {
  axis: Axis;
  /** What was set, in words. */
  setting: string;
  /** W or km/h by id of the method. */
  figures: Record<string, number>;
}

/** What figures rest on beside the readings, in words: `exponential, baseline: lowest lactate of all stages`. */
export const settingWords = ({ curve, baseline }: { curve: CurveId; baseline: BaselineRule }): string =>
  `${MODELS[curve].name}, baseline: ${BASELINE_NAMES[baseline]}`;

/** The figures as they are now, for keeping; `setting` says in words what they rest on. */
export const figuresOf = (sampling: SamplingResult, setting: string): KeptFigures => ({
  axis: sampling.axis,
  setting,
  figures: Object.fromEntries(answered(sampling).map(({ id, intensity }) => [id, intensity])),
});

const isKept = (kept: unknown): kept is KeptFigures => {
  const { axis, setting, figures } = (kept ?? {}) as Partial<KeptFigures>;
  return (
    (axis === 'power' || axis === 'speed') &&
    typeof setting === 'string' &&
    typeof figures === 'object' &&
    figures !== null &&
    Object.values(figures).every(Number.isFinite)
  );
};

/**
 * Kept figures beside those of now: which methods moved, and how far.
 *
 * Throws    InputError for what was not kept by `figuresOf`
 */
export function showKept(
  kept: unknown,
  sampling: SamplingResult,
  { display, setting }: { display: Display; setting: string },
): ProseView | ChartView | StackView {
  if (kept === null) return onlyLive(prose`*Nothing is kept yet.*`);
  if (!isKept(kept)) throw new InputError('What is kept here are no figures: keep them anew.');
  if (kept.axis !== display.axis)
    return prose`*What is kept is in another unit than this test: keep the figures anew.*`;
  const now = answered(sampling);
  const moved = movedSince(kept, now);
  return truthChart({
    axis: display.axis,
    truths: [],
    rows: moved.flatMap((figure) => movedRow(figure, display)),
    title: 'From the kept setting to this one',
    summary: `Kept: ${kept.setting}. Now: ${setting}. ${sayMoved(moved, display)}`,
    data: keptTable(now, kept, display),
  });
}

/** Methods that answer now, then those that only did. */
function movedSince({ figures }: KeptFigures, now: readonly Answered[]): MovedFigure[] {
  const answering = now.map(({ id, intensity }) => ({
    method: id,
    was: figures[id] ?? null,
    now: intensity,
  }));
  const lost = Object.keys(figures).filter((id) => !now.some((answer) => answer.id === id));
  return [...answering, ...lost.map((id) => ({ method: id, was: figures[id]!, now: null }))];
}

function keptTable(now: readonly Answered[], { figures }: KeptFigures, display: Display): TableView {
  const { unit } = display;
  return table({
    caption: 'Kept and now',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'kept', heading: 'Kept', unit, align: 'right' },
      { key: 'now', heading: 'Now', unit, align: 'right' },
      { key: 'by', heading: 'Moved by', align: 'right' },
    ],
    rows: now.map(({ id, name, intensity, digits }) => ({
      method: name,
      kept: id in figures ? bareIntensity(figures[id]!, display, digits) : 'no answer',
      now: bareIntensity(intensity, display, digits),
      by: id in figures ? movedWords(intensity - figures[id]!, display) : '–',
    })),
  });
}
