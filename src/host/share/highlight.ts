import { highlightCode, tagHighlighter, tags } from '@lezer/highlight';
import { parser } from '@lezer/javascript';
import { escapeHtml } from './escape.ts';

const typescript = parser.configure({ dialect: 'ts' });

/** The same six kinds of words that the editor colours. */
const highlighter = tagHighlighter([
  { tag: [tags.keyword, tags.moduleKeyword, tags.operatorKeyword, tags.controlKeyword], class: 'word' },
  { tag: [tags.string, tags.special(tags.string), tags.regexp, tags.escape], class: 'text' },
  { tag: [tags.number, tags.bool, tags.null], class: 'number' },
  { tag: [tags.function(tags.variableName), tags.function(tags.propertyName)], class: 'name' },
  { tag: [tags.typeName, tags.className], class: 'type' },
  { tag: tags.comment, class: 'remark' },
]);

/** A cell's text as HTML with its words in spans; the text itself is unchanged. */
export function highlight(code: string): string {
  let html = '';
  const put = (text: string, classes: string) => {
    const escaped = escapeHtml(text);
    html += classes ? `<span class="${classes}">${escaped}</span>` : escaped;
  };
  highlightCode(code, typescript.parse(code), highlighter, put, () => {
    html += '\n';
  });
  return html;
}
