import { constructionChart } from '../charts/constructionChart.ts';
import type { Construction } from '../physiology/construction.ts';
import { constructionOf } from '../physiology/constructionOf.ts';
import { methodById, needsOf } from '../physiology/methods/index.ts';
import type { Method, StageLengthEffect } from '../physiology/methods/method.ts';
import { type ChartView, type NoticeView, notice, prose, type StackView, stack } from '../view/view.ts';
import { intensityWords, rangeWords } from './display.ts';
import { type Answered, answerOf, limits, unanswered } from './methodRows.ts';
import type { Study } from './study.ts';

/**
 * Methods as a student meets them: how each finds its answer on this athlete's own readings, its answer with the
 * interval or why there is none, and beneath what is known of it. What is switched off is only named.
 */
export function showMethods(study: Study, ...ids: readonly string[]): StackView {
  const shown = ids.filter((id) => study.on?.has(id) ?? true);
  if (shown.length === 0) return stack(prose`*Switched off.*`);
  return stack(
    ...shown.flatMap((id) => [refusalNotice(study, id), showConstruction(study, id)]),
    prose`${detailsOf(study, shown.map(methodById))}`,
  );
}

/** Why a method gives no answer; null when it gives one. */
function refusalNotice({ sampling }: Study, id: string): NoticeView | null {
  const refused = unanswered(sampling).find((method) => method.id === id);
  return refused ? notice('note', `${refused.name}: no answer here`, refused.reason) : null;
}

/** How one method finds its answer, as a picture; what can be drawn when it refuses; null when nothing can. */
export function showConstruction(study: Study, id: string): ChartView | null {
  const { readings, options, sampling, display } = study;
  const { name, claim, protocol } = methodById(id);
  const answer = answerOf(sampling, id);
  const construction = constructionOf(readings, id, options);
  if (protocol !== readings.protocol || !isDrawable(construction, answer !== null)) return null;
  return constructionChart({
    axis: display.axis,
    claim,
    construction,
    answer: answer && intensityWords(answer.intensity, display, answer.digits),
    interval: limits(answer?.interval ?? null),
    title: answer ? `${name}: ${answerWords(answer, study)}` : `${name}: what can still be drawn`,
    summary: construction.caption,
  });
}

/** A picture needs a reading to stand on, and without an answer something else than the readings to look at. */
const isDrawable = ({ marks }: Construction, answered: boolean): boolean =>
  marks.some((mark) => mark.kind === 'readings' && mark.x.length > 0) &&
  (answered || marks.some((mark) => mark.kind !== 'readings'));

function answerWords({ intensity, interval, digits, id }: Answered, { display }: Study): string {
  const figure = intensityWords(intensity, display, digits);
  if (interval === null) return `${figure}, not determined`;
  const of = methodById(id).spread ? 'spread of the raters' : '95 % interval';
  return `${figure}, ${of} ${rangeWords(interval, display, digits)}`;
}

const CLAIMS = {
  LT1: 'the first threshold (LT1)',
  LT2: 'the second threshold (LT2)',
  MLSS: 'the maximal lactate steady state',
} as const;

const SHORTER: Record<StageLengthEffect, string> = {
  higher: 'put it higher',
  lower: 'put it lower',
  little: 'move it little',
  unknown: 'may move it; nobody here knows where',
};

/** What is known of methods, as a Markdown list. Methods of which the same can be said share a line. */
function detailsOf({ sampling }: Study, methods: readonly Method[]): string {
  const warnings = ({ id }: Method) => answerOf(sampling, id)?.warnings.join(' ') ?? '';
  const lines: [string, (method: Method) => string][] = [
    ['Claims', ({ claim, meaning }) => `${CLAIMS[claim]}. ${meaning}`],
    ['Needs', (method) => `${needsOf(method).join('; ')}.`],
    ['Known bias', ({ bias }) => bias],
    ['Shorter stages', (method) => (method.protocol === 'bouts' ? '' : `${SHORTER[method.shorterStages]}.`)],
    ['Here', warnings],
    ['Paper', ({ source }) => `${source}.`],
  ];
  return lines.map(([label, say]) => sharedLine(label, methods, say)).join('');
}

function sharedLine(label: string, methods: readonly Method[], say: (method: Method) => string): string {
  const byText = new Map<string, string[]>();
  for (const method of methods) {
    const text = say(method);
    if (text !== '') byText.set(text, [...(byText.get(text) ?? []), method.name]);
  }
  if (byText.size === 0) return '';
  const isShared = byText.size === 1 && [...byText.values()][0]!.length === methods.length;
  if (isShared) return `- **${label}:** ${[...byText.keys()][0]}\n`;
  const each = [...byText].map(([text, names]) => `  - *${names.join(', ')}:* ${text}\n`);
  return `- **${label}:**\n${each.join('')}`;
}
