import type { Caution } from '../../toolkit/cautions.ts';
import type { CellText, Setting, WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { embedCode, embedWorkbook } from './embedded.ts';
import { escapeHtml } from './escape.ts';

/** Nothing is loaded and nothing runs; the embedded workbook is data, which no policy concerns. */
const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** All that a share page is made of. */
export interface ShareContent {
  workbook: WorkbookDocument;
  /** What each cell shows, sanitised already. */
  results: readonly SnapshotCell[];
  /** Version of Hourline. */
  version: string;
  /** ISO date-time of saving; null when dates are left out. */
  made: string | null;
  fingerprint: string | null;
  cautions: readonly Caution[];
  /** Where the cautions are laid down in full. */
  cautionSources: string;
  styles: string;
  /** A cell's text as HTML with its words in spans. */
  highlight(code: string): string;
}

/** The whole share page: one file, no scripts, readable on its own and openable again as the workbook. */
export function sharePage(content: ShareContent): string {
  const { workbook, styles } = content;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(workbook.title)}</title>
<style>
${styles}
</style>
</head>
<body class="share">
<header>
<h1>${escapeHtml(workbook.title)}</h1>
<p class="made">${about(content)}</p>
</header>
<main>
${shortSection(content)}
${workbook.cells.map((cell, i) => cellSection(cell, i, content)).join('\n')}
${cautionSection(content)}
${provenanceSection(content)}
</main>
${embedWorkbook(workbook, content.version, content.fingerprint)}
</body>
</html>
`;
}

function about({ workbook, version, made }: ShareContent): string {
  const day = made === null ? '' : ` on ${escapeHtml(made.slice(0, 10))}`;
  return (
    `Saved${day} with Hourline ${escapeHtml(version)}. The short answer first; then ${workbook.cells.length} cells, each with ` +
    'its result and, folded, its code. This page runs and loads nothing; opened in Hourline it is the workbook again.'
  );
}

/** What a coach or athlete wants to know, from all cells that have a part of it, on the first screen. */
function shortSection({ results }: ShareContent): string {
  const parts = results.flatMap(({ inShort }) => (inShort ? [`<div class="result">${inShort}</div>`] : []));
  if (parts.length === 0) return '';
  return `<section class="short" aria-label="In short">\n${parts.join('\n')}\n</section>`;
}

function cellSection(cell: CellText, number: number, { results, highlight }: ShareContent): string {
  const shown = results.find((result) => result.name === cell.name);
  const name = escapeHtml(cell.name);
  const above = shown?.inShort ? '<p class="note">A part of this stands in short at the top.</p>' : '';
  return `<section class="cell" aria-label="${name}">
<div class="result">${shown?.html ?? ''}</div>${above}
<details class="source"><summary>Code of ${name}</summary><pre class="code">${embedCode(number, highlight(cell.text))}</pre></details>
</section>`;
}

function cautionSection({ cautions, cautionSources }: ShareContent): string {
  const groups = cautions.map(({ title, points }) => {
    const items = points.map((point) => `<li>${escapeHtml(point)}</li>`).join('\n');
    return `<h3>${escapeHtml(title)}</h3>\n<ul>\n${items}\n</ul>`;
  });
  return `<section class="cautions" aria-labelledby="cautions-title">
<h2 id="cautions-title">Cautions</h2>
${groups.join('\n')}
<p class="note">In full: ${escapeHtml(cautionSources)}</p>
</section>`;
}

const LEFT_OUT = 'left out on request';

function provenanceSection({ workbook, version, made, fingerprint }: ShareContent): string {
  const rows = [
    ['Made with', `Hourline ${version}`],
    ['Saved', made ?? LEFT_OUT],
    ['Workbook last changed', made === null ? LEFT_OUT : workbook.changed],
    ['Started from', workbook.shipped ?? 'an empty workbook'],
    [
      'Fingerprint of the source (SHA-256)',
      fingerprint ?? 'not computed: the page was served without encryption',
    ],
    ...settingRows(workbook.settings),
  ];
  const list = rows.map(([term, text]) => `<dt>${escapeHtml(term!)}</dt><dd>${escapeHtml(text!)}</dd>`);
  return `<section class="provenance" aria-labelledby="provenance-title">
<h2 id="provenance-title">Where this comes from</h2>
<dl>
${list.join('\n')}
</dl>
<p class="note">Settings not listed, the seed of the random draws included, have the values in the code above.</p>
</section>`;
}

const settingRows = (settings: Record<string, Setting>): string[][] =>
  Object.entries(settings).map(([place, { value }]) => [`Setting ${place}`, JSON.stringify(value)]);
