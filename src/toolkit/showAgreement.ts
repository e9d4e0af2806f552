import { type Agreement, agreementOf, type MethodPair } from '../physiology/agreement.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { prose, type StackView, stack, type TableRow, type TableView, table } from '../view/view.ts';
import { bareIntensity, type Display, intensityWords } from './display.ts';
import { answerOf } from './methodRows.ts';

const NAMES: Record<Claim, string> = {
  LT1: 'First threshold',
  LT2: 'Second threshold',
  MLSS: 'Maximal lactate steady state',
};

const nameOf = (id: string): string => methodById(id).name;

/**
 * How far the methods for one threshold agree on this test: their spread, the groups that the errors of the test do
 * not tell apart, the pairs that differ beyond them, and where the length of the stages moves them. No average.
 */
export function showAgreement(result: SamplingResult, { display }: { display: Display }): StackView {
  const all = agreementOf(result);
  if (all.length === 0) return stack(prose`No method has an answer, so there is nothing to compare.`);
  return stack(
    prose`${all.map((agreement) => agreementWords(agreement, display)).join('\n')}`,
    groupTable(all, result, display),
  );
}

function agreementWords(agreement: Agreement, display: Display): string {
  const { claim, methods, lowest, highest } = agreement;
  const name = NAMES[claim];
  if (methods.length === 1) return `- **${name}.** One method answers: ${nameOf(methods[0]!)}.`;
  const span = `${bareIntensity(lowest, display)} to ${intensityWords(highest, display)}`;
  return `- **${name}.** ${methods.length} methods, from ${span}. ${pairWords(agreement, display)}${lengthWords(agreement)}`;
}

function pairWords({ pairs }: Agreement, display: Display): string {
  const apart = pairs.filter((pair) => pair.beyondError);
  const unknown = pairs.filter((pair) => pair.otherWay === null).length;
  const unjudged = unknown === 0 ? '' : ` ${unknown} cannot be judged: too few draws answer both.`;
  if (apart.length === 0)
    return `No two of them lie further apart than the errors of the test explain.${unjudged}`;
  const widest = apart.reduce((a, b) => (b.difference > a.difference ? b : a));
  const most = `${nameOf(widest.lower)} and ${nameOf(widest.higher)} (${differenceWords(widest, display)} apart)`;
  return `Of ${pairs.length} pairs ${apart.length} lie further apart than the errors explain, most of all ${most}.${unjudged}`;
}

const differenceWords = ({ difference }: MethodPair, display: Display): string =>
  intensityWords(difference, display);

/** Which way stages shorter than those of the papers are known to move the answers. */
function lengthWords({ shorterStages: { higher, lower, little } }: Agreement): string {
  const names = (ids: readonly string[]) => ids.map(nameOf).join(', ');
  const parts = [
    ...(higher.length > 0 ? [`put ${names(higher)} higher`] : []),
    ...(lower.length > 0 ? [`put ${names(lower)} lower`] : []),
    ...(little.length > 0 ? [`hardly move ${names(little)}`] : []),
  ];
  return parts.length === 0 ? '' : ` Shorter stages ${parts.join('; ')}.`;
}

function groupTable(all: readonly Agreement[], result: SamplingResult, display: Display): TableView {
  const rows = all.flatMap(({ claim, clusters }): TableRow[] => [
    { methods: NAMES[claim], range: '', tone: 'strong' },
    ...clusters.map((ids) => ({ methods: ids.map(nameOf).join(', '), range: rangeOf(ids, result, display) })),
  ]);
  return table({
    caption: 'Groups that the errors of this test do not tell apart',
    columns: [
      { key: 'methods', heading: 'Methods' },
      { key: 'range', heading: 'Answers', unit: display.unit, align: 'right' },
    ],
    rows,
    note: 'Each method of a group agrees with a neighbour in it; the two ends of a long group may not.',
  });
}

function rangeOf(ids: readonly string[], result: SamplingResult, display: Display): string {
  const [low, high] = [ids[0]!, ids.at(-1)!].map((id) => {
    const { intensity, sd } = answerOf(result, id)!;
    return bareIntensity(intensity, display, { sd });
  });
  return low === high ? low! : `${low}–${high}`;
}
