import results from '../../look/results.css?inline';
import tokens from '../../look/tokens.css?inline';
import { CAUTION_SOURCES, CAUTIONS } from '../../toolkit/cautions.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { VERSION } from '../parts.ts';
import { fingerprintOf } from './embedded.ts';
import { highlight } from './highlight.ts';
import { readWords, resultsWithoutWords, withoutWords } from './identity.ts';
import { sanitise } from './sanitise.ts';
import share from './share.css?inline';
import { sharePage } from './sharePage.ts';

/** The share page of a workbook from what its cells show, without the words in `wordLine`. Loaded only when a page is saved. */
export async function makeSharePage(
  document: WorkbookDocument,
  shown: readonly SnapshotCell[],
  wordLine: string,
): Promise<{ title: string; html: string }> {
  const words = readWords(wordLine);
  const workbook = withoutWords(document, words);
  const html = sharePage({
    workbook,
    results: resultsWithoutWords(shown, words).map(({ name, html }) => ({ name, html: sanitise(html) })),
    version: VERSION,
    made: new Date().toISOString(),
    fingerprint: await fingerprintOf(workbook),
    cautions: CAUTIONS,
    cautionSources: CAUTION_SOURCES,
    styles: [tokens, results, share].join('\n'),
    highlight,
  });
  return { title: workbook.title, html };
}
