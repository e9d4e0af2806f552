import { isGridValue } from '../../base/grid.ts';
import results from '../../look/results.css?inline';
import tokens from '../../look/tokens.css?inline';
import { CAUTION_SOURCES, CAUTIONS } from '../../toolkit/cautions.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { VERSION } from '../parts.ts';
import { fingerprintOf } from './embedded.ts';
import { highlight } from './highlight.ts';
import { checkNothingLeft, identityIn, readWords, resultsWithout, workbookWithout } from './identity.ts';
import { sanitise } from './sanitise.ts';
import share from './share.css?inline';
import { sharePage } from './sharePage.ts';

/** Without the texts that its tables came from: they hold more than the page shows, such as names above the headings. */
function withoutSources(document: WorkbookDocument): WorkbookDocument {
  const settings = Object.entries(document.settings).map(([place, { value, from }]) => {
    if (!isGridValue(value)) return [place, { value, from }];
    const { headings, rows } = value;
    return [place, { value: { headings, rows }, from }];
  });
  return { ...document, settings: Object.fromEntries(settings) };
}

/**
 * The share page of a workbook from what its cells show. With a `wordLine`, even an empty one, without who the athlete is:
 * without these words, dates and notes. Loaded only when a page is saved.
 */
export async function makeSharePage(
  whole: WorkbookDocument,
  shown: readonly SnapshotCell[],
  wordLine: string | null,
): Promise<{ title: string; html: string }> {
  const document = withoutSources(whole);
  if (wordLine === null) return write(document, shown, new Date().toISOString());
  const identity = identityIn(document, readWords(wordLine));
  const page = await write(workbookWithout(document, identity), resultsWithout(shown, identity), null);
  checkNothingLeft(page.html, identity);
  return page;
}

async function write(
  workbook: WorkbookDocument,
  shown: readonly SnapshotCell[],
  made: string | null,
): Promise<{ title: string; html: string }> {
  const html = sharePage({
    workbook,
    results: shown.map(({ name, inShort, html }) => ({
      name,
      inShort: sanitise(inShort),
      html: sanitise(html),
    })),
    version: VERSION,
    made,
    fingerprint: await fingerprintOf(workbook),
    cautions: CAUTIONS,
    cautionSources: CAUTION_SOURCES,
    styles: [tokens, results, share].join('\n'),
    highlight,
  });
  return { title: workbook.title, html };
}
