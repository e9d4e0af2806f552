import { html } from 'lit';
import { lexer, type MarkedToken, type Token, type Tokens } from 'marked';
import { unbroken } from '../../base/format.ts';
import { freshId } from '../light.ts';

type Drawn = unknown;

const ENTITIES: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: '\u00a0' };

/**
 * Markdown allows the characters of HTML by name; the few in use are turned back, the rest stay as typed. A number and its
 * unit stay together, and an apostrophe looks like one.
 */
const unescaped = (text: string): string =>
  unbroken(text.replace(/&(amp|lt|gt|quot|apos|nbsp);/g, (_, name: string) => ENTITIES[name]!)).replace(
    /(?<=\p{L})'(?=\p{L})/gu,
    '’',
  );

const heading = (depth: number, content: Drawn): Drawn => {
  if (depth === 1) return html`<h1>${content}</h1>`;
  if (depth === 2) return html`<h2>${content}</h2>`;
  if (depth === 3) return html`<h3>${content}</h3>`;
  return html`<h4>${content}</h4>`;
};

function list(token: Tokens.List): Drawn {
  const items = token.items.map((item) => html`<li>${blocks(item.tokens)}</li>`);
  return token.ordered
    ? html`<ol start=${token.start === '' ? 1 : token.start}>${items}</ol>`
    : html`<ul>${items}</ul>`;
}

function table(token: Tokens.Table): Drawn {
  const side = (cell: Tokens.TableCell) => (cell.align === 'right' ? 'right' : '');
  return html`<div class="table-scroll"><table>
    <thead><tr>${token.header.map((c) => html`<th scope="col" class=${side(c)}>${inline(c.tokens)}</th>`)}</tr></thead>
    <tbody>${token.rows.map(
      (row) => html`<tr>${row.map((c) => html`<td class=${side(c)}>${inline(c.tokens)}</td>`)}</tr>`,
    )}</tbody>
  </table></div>`;
}

/** Address of a cell of the workbook, and of a word that is explained in the title of its link. */
const CELL = /^cell:(.+)$/;
const TERM = /^term:/;

/** The page goes to the cell and offers the way back. */
const toCell = (cell: string, label: Drawn) =>
  html`<button type="button" class="place" @click=${({ currentTarget }: Event) =>
    currentTarget!.dispatchEvent(
      new CustomEvent('hour-see', { bubbles: true, detail: `${cell}.ts` }),
    )}>${label}</button>`;

/** The explanation opens above the page, so that no line of the text moves. */
function explained(label: Drawn, explanation: string): Drawn {
  const id = freshId('term');
  return html`<button type="button" class="term" popovertarget=${id}>${label}</button><span popover
    class="explanation" id=${id}>${unescaped(explanation)}</span>`;
}

/** An address is printed, not linked: links are the one way out of the frame, so none leads further than to another cell. */
function link(token: Tokens.Link): Drawn {
  const label = inline(token.tokens);
  const [, cell] = CELL.exec(token.href) ?? [];
  if (cell) return toCell(cell, label);
  if (TERM.test(token.href) && token.title) return explained(label, token.title);
  return token.text === token.href ? label : html`${label} <span class="reference">(${token.href})</span>`;
}

function block(token: MarkedToken): Drawn {
  switch (token.type) {
    case 'heading':
      return heading(token.depth, inline(token.tokens));
    case 'paragraph':
      return html`<p>${inline(token.tokens)}</p>`;
    case 'list':
      return list(token);
    case 'table':
      return table(token);
    case 'blockquote':
      return html`<blockquote>${blocks(token.tokens)}</blockquote>`;
    case 'code':
      return html`<pre><code>${token.text}</code></pre>`;
    case 'hr':
      return html`<hr>`;
    case 'space':
    case 'def':
      return null;
    case 'html':
      return html`<p>${token.text}</p>`;
    default:
      return span(token);
  }
}

function span(token: MarkedToken): Drawn {
  switch (token.type) {
    case 'text':
      return token.tokens ? inline(token.tokens) : unescaped(token.text);
    case 'strong':
      return html`<strong>${inline(token.tokens)}</strong>`;
    case 'em':
      return html`<em>${inline(token.tokens)}</em>`;
    case 'del':
      return html`<s>${inline(token.tokens)}</s>`;
    case 'codespan':
      return html`<code>${unescaped(token.text)}</code>`;
    case 'br':
      return html`<br>`;
    case 'link':
      return link(token);
    case 'image':
      return html`<span class="reference">${token.text || token.href}</span>`;
    case 'checkbox':
      return token.checked ? '☑ ' : '☐ ';
    case 'escape':
      return token.text;
    default:
      return token.raw;
  }
}

const blocks = (tokens: readonly Token[]): Drawn[] => tokens.map((token) => block(token as MarkedToken));
const inline = (tokens: readonly Token[]): Drawn[] => tokens.map((token) => span(token as MarkedToken));

/** What was read last, by its text: a text that is drawn is also looked through for headings, and drawn again. */
const read = new Map<string, readonly Token[]>();
const MOST_READ = 200;

function tokensOf(text: string): readonly Token[] {
  const known = read.get(text);
  if (known) return known;
  if (read.size >= MOST_READ) read.clear();
  const tokens = lexer(text);
  read.set(text, tokens);
  return tokens;
}

/** Markdown as templates. HTML in it is shown as the text it is; addresses are printed and lead nowhere. */
export const markdown = (text: string): Drawn => blocks(tokensOf(text));

/** A heading in Markdown: its depth from 1, and its words drawn. */
export interface Heading {
  depth: number;
  content: Drawn;
}

/** The headings of a Markdown text, outermost level only: those in quotes and lists structure nothing. */
export const headingsOf = (text: string): Heading[] =>
  tokensOf(text).flatMap((token) =>
    token.type === 'heading' ? [{ depth: token.depth as number, content: inline(token.tokens ?? []) }] : [],
  );

/** The view of a prose cell. */
export const proseView = (text: string): Drawn => html`<div class="prose">${markdown(text)}</div>`;
