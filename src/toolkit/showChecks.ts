import type { Finding } from '../physiology/testChecks.ts';
import { type NoticeView, notice, type StackView, stack } from '../view/view.ts';

/** What was found about the test, gravest first; says so when there is nothing to mind. */
export function showChecks(findings: readonly Finding[]): StackView | NoticeView {
  if (findings.length === 0) {
    return notice(
      'good',
      'Nothing to mind',
      'Stages, baseline, rise and end of the test are as the methods want them.',
    );
  }
  return stack(...findings.map(({ tone, title, meaning }) => notice(tone, title, meaning)));
}
