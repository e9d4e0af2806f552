import { intensityText } from '../physiology/refusal.ts';
import type { StepTest } from '../physiology/stepTest.ts';
import type { Finding, FindingCode } from '../physiology/testChecks.ts';
import { type NoticeView, notice, type StackView, stack } from '../view/view.ts';

/** What was found about the test, gravest first and where; says so when there is nothing to mind. */
export function showChecks(findings: readonly Finding[], test: StepTest): StackView | NoticeView {
  if (findings.length === 0) {
    return notice(
      'good',
      'Nothing to mind',
      'Stages, baseline, rise and end of the test are as the methods want them.',
    );
  }
  return stack(
    ...findings.map((finding) =>
      notice(finding.tone, finding.title, `${finding.meaning}${whereWords(finding, test)}`),
    ),
  );
}

/** Findings that say by themselves which stage they are about. */
const NAMED: ReadonlySet<FindingCode> = new Set(['suspicious-reading', 'raised-start', 'incomplete-last']);
/** Stages that are named; there are more of them only in a table that is wrong as a whole. */
const MOST = 4;

function whereWords({ code, stages }: Finding, test: StepTest): string {
  if (stages.length === 0 || NAMED.has(code)) return '';
  const named = stages
    .slice(0, MOST)
    .map((at) => `stage ${at + 1} (${intensityText(test.stages[at]!.intensity, test.axis)})`);
  const more = stages.length > MOST ? ` and ${stages.length - MOST} more` : '';
  return ` Where: ${named.join(', ')}${more}.`;
}
