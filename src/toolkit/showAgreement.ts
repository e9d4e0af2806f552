import { type Agreement, agreementOf } from '../physiology/agreement.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { folded, prose, type StackView, stack, type TableRow, type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords } from './display.ts';
import { answerOf, spanWords } from './methodRows.ts';

const NAMES: Record<Claim, string> = {
  LT1: 'First threshold',
  LT2: 'Second threshold',
  MLSS: 'Maximal lactate steady state',
};

const nameOf = (id: string): string => methodById(id).name;
const namesOf = (ids: readonly string[]): string => ids.map((id) => `*${nameOf(id)}*`).join(', ');

/**
 * How far the methods for one threshold agree on this test: their spread, the groups that the errors of the test do
 * not tell apart, the pairs that differ beyond them, and where the length of the stages moves them. No average.
 */
export function showAgreement(result: SamplingResult, { display }: { display: Display }): StackView {
  const all = agreementOf(result);
  if (all.length === 0) return stack(prose`No method has an answer, so there is nothing to compare.`);
  return stack(
    prose`${all.map((agreement) => agreementWords(agreement, result, display)).join('\n')}`,
    folded('Which methods disagree', apartTable(all, result, display)),
  );
}

function agreementWords(agreement: Agreement, result: SamplingResult, display: Display): string {
  const { claim, methods } = agreement;
  if (methods.length === 1) return `- **${NAMES[claim]}.** One method answers: *${nameOf(methods[0]!)}*.`;
  const span = spanWords(
    methods.map((id) => answerOf(result, id)!),
    display,
  );
  const parts = [
    `${methods.length} methods, ${span}.`,
    pairWords(agreement, display),
    groupWords(agreement),
    lengthWords(agreement),
  ];
  return `- **${NAMES[claim]}.** ${parts.join(' ')}`;
}

function pairWords({ pairs }: Agreement, display: Display): string {
  const apart = pairs.filter((pair) => pair.beyondError);
  const unknown = pairs.filter((pair) => pair.otherWay === null).length;
  const unjudged = unknown === 0 ? '' : ` ${unknown} cannot be judged, for too few draws answer both.`;
  if (apart.length === 0)
    return `No two of them lie further apart than the errors of the test explain.${unjudged}`;
  const { lower, higher, difference } = apart.reduce((a, b) => (b.difference > a.difference ? b : a));
  const most = `${namesOf([lower])} and ${namesOf([higher])}, ${intensityWords(difference, display)} apart`;
  return `Of ${pairs.length} pairs ${apart.length} lie further apart than the errors explain, the widest ${most}.${unjudged}`;
}

/** Whether there is a gap between groups of methods; in one long group neighbours agree and the ends may not. */
function groupWords({ clusters, pairs }: Agreement): string {
  if (clusters.length > 1) return `They fall into groups: ${clusters.map(namesOf).join('; ')}.`;
  return pairs.some((pair) => pair.beyondError)
    ? 'There is no gap between groups: each agrees with a neighbour, the ends do not.'
    : '';
}

/** Which way stages shorter than those of the papers are known to move the answers. */
function lengthWords({ shorterStages: { higher, lower, little } }: Agreement): string {
  const parts = [
    ...(higher.length > 0 ? [`put ${namesOf(higher)} higher`] : []),
    ...(lower.length > 0 ? [`put ${namesOf(lower)} lower`] : []),
    ...(little.length > 0 ? [`hardly move ${namesOf(little)}`] : []),
  ];
  return parts.length === 0 ? '' : `Shorter stages ${parts.join('; ')}.`;
}

/** Each method with those that it does not agree with. */
function apartTable(all: readonly Agreement[], result: SamplingResult, display: Display): TableView {
  const rows = all.flatMap((agreement): TableRow[] => [
    { method: NAMES[agreement.claim], answer: '', apart: '', tone: 'strong' },
    ...agreement.methods.map((id) => ({
      method: nameOf(id),
      answer: answerWords(id, result, display),
      apart: apartFrom(id, agreement),
    })),
  ]);
  return table({
    caption: 'Methods and those that they disagree with',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'answer', heading: 'Answer', unit: display.unit, align: 'right' },
      { key: 'apart', heading: 'Further away than the errors explain' },
    ],
    rows,
    note: 'Two methods disagree when one lies below the other in all but 2.5 % of the draws that both answer.',
  });
}

function answerWords(id: string, result: SamplingResult, display: Display): string {
  const { intensity, digits } = answerOf(result, id)!;
  return bareIntensity(intensity, display, digits);
}

function apartFrom(id: string, { pairs }: Agreement): string {
  const others = pairs.flatMap(({ lower, higher, beyondError }) => {
    if (!beyondError) return [];
    if (lower === id) return [higher];
    return higher === id ? [lower] : [];
  });
  return others.length === 0 ? 'none' : others.map(nameOf).join(' · ');
}
