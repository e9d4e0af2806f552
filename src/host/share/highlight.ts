import { highlightCode, tagHighlighter, tags } from '@lezer/highlight';
import { parser } from '@lezer/javascript';
import { escapeCode } from './code.ts';

const typescript = parser.configure({ dialect: 'ts' });

/**
 * The same six kinds of words that the editor colours, each an element of its own: a page has so many that a class on a span
 * would be a twelfth of its size.
 */
const highlighter = tagHighlighter([
  { tag: [tags.keyword, tags.moduleKeyword, tags.operatorKeyword, tags.controlKeyword], class: 'c-w' },
  { tag: [tags.string, tags.special(tags.string), tags.regexp, tags.escape], class: 'c-t' },
  { tag: [tags.number, tags.bool, tags.null], class: 'c-n' },
  { tag: [tags.function(tags.variableName), tags.function(tags.propertyName)], class: 'c-f' },
  { tag: [tags.typeName, tags.className], class: 'c-y' },
  { tag: tags.comment, class: 'c-r' },
]);

/** A cell's text as HTML with its words in elements; `plainCode` takes them away again. */
export function highlight(code: string): string {
  let html = '';
  const put = (text: string, kind: string) => {
    const escaped = escapeCode(text);
    html += kind ? `<${kind}>${escaped}</${kind}>` : escaped;
  };
  highlightCode(code, typescript.parse(code), highlighter, put, () => {
    html += '\n';
  });
  // Words of one kind with nothing but space between them need one element.
  return html.replace(/<\/(c-\w)>(\s+)<\1>/g, '$2');
}
