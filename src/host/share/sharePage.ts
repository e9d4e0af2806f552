import type { Caution } from '../../toolkit/cautions.ts';
import type { CellText, Setting, WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { embedWorkbook } from './embedded.ts';
import { escapeHtml } from './escape.ts';

/** Nothing is loaded and nothing runs; the embedded workbook is data, which no policy concerns. */
const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

export interface ShareContent {
  workbook: WorkbookDocument;
  /** What each cell shows, sanitised already. */
  results: readonly SnapshotCell[];
  /** Version of Hourline. */
  version: string;
  /** ISO date-time of saving. */
  made: string;
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
<p class="made">${summary(content)}</p>
</header>
<main>
${workbook.cells.map((cell) => cellSection(cell, content)).join('\n')}
</main>
${cautionSection(content)}
${provenanceSection(content)}
${embedWorkbook(workbook, content.version, content.fingerprint)}
</body>
</html>
`;
}

function summary({ workbook, version, made }: ShareContent): string {
  const day = escapeHtml(made.slice(0, 10));
  return (
    `Saved on ${day} with Hourline ${escapeHtml(version)}. ${workbook.cells.length} cells, each with its result ` +
    'and, folded beneath it, the code that made it. This page runs nothing and loads nothing; opened in Hourline ' +
    'it is the workbook again.'
  );
}

function cellSection(cell: CellText, { results, highlight }: ShareContent): string {
  const shown = results.find((result) => result.name === cell.name)?.html ?? '';
  const name = escapeHtml(cell.name);
  return `<section class="cell" aria-label="${name}">
<div class="result">${shown}</div>
<details class="source"><summary>Code of ${name}</summary><pre class="code"><code>${highlight(cell.text)}</code></pre></details>
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

function provenanceSection({ workbook, version, made, fingerprint }: ShareContent): string {
  const rows = [
    ['Made with', `Hourline ${version}`],
    ['Saved', made],
    ['Workbook last changed', workbook.changed],
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
