import { HighlightStyle, syntaxHighlighting } from '@codemirror/language';
import { EditorView } from '@codemirror/view';
import { tags } from '@lezer/highlight';

/** Colours by name only: both themes and every change of tokens.css reach the editors by themselves. */
const letters = HighlightStyle.define([
  { tag: [tags.keyword, tags.operatorKeyword, tags.modifier], color: 'var(--code-word)' },
  { tag: [tags.string, tags.special(tags.string), tags.regexp], color: 'var(--code-text)' },
  { tag: [tags.number, tags.bool, tags.null], color: 'var(--code-number)' },
  { tag: [tags.function(tags.variableName), tags.function(tags.propertyName)], color: 'var(--code-name)' },
  { tag: [tags.typeName, tags.className], color: 'var(--code-type)' },
  { tag: tags.comment, color: 'var(--code-remark)', fontStyle: 'italic' },
]);

const frame = EditorView.theme({
  '&': { color: 'var(--ink)', backgroundColor: 'transparent', fontSize: 'var(--size-code)' },
  '&.cm-focused': { outline: 'none' },
  '.cm-scroller': { fontFamily: 'var(--mono)', lineHeight: 'var(--line-code)' },
  '.cm-content': { padding: '0', caretColor: 'var(--ink)' },
  // As .code-line in page.css.
  '.cm-line': {
    padding: '0 0 0 calc((var(--indent, 0) + 2) * 1ch)',
    textIndent: 'calc((var(--indent, 0) + 2) * -1ch)',
  },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '.cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground': {
    backgroundColor: 'var(--code-selection)',
  },
  '&.cm-focused .cm-matchingBracket': {
    backgroundColor: 'var(--first-soft)',
    outline: '1px solid var(--first)',
  },
  '&.cm-focused .cm-nonmatchingBracket': { backgroundColor: 'var(--problem-soft)' },
  '.cm-tooltip': {
    backgroundColor: 'var(--raised)',
    color: 'var(--ink)',
    border: '1px solid var(--edge)',
    borderRadius: 'var(--corner)',
    maxWidth: 'min(30rem, 90vw)',
  },
  '.cm-tooltip-autocomplete > ul > li[aria-selected]': {
    backgroundColor: 'var(--first)',
    color: 'var(--paper)',
  },
  '.cm-completionDetail': { color: 'inherit', opacity: '0.8', fontStyle: 'normal', marginLeft: '1em' },
  '.cm-lintRange-error, .cm-lintRange-warning': {
    backgroundImage: 'none',
    textDecoration: 'underline wavy var(--problem) 1.5px',
    textUnderlineOffset: '3px',
    textDecorationSkipInk: 'none',
  },
  '.cm-lintRange-warning': { textDecorationColor: 'var(--caution)' },
  '.cm-lintPoint:after': { borderBottomColor: 'var(--problem)' },
  '.cm-diagnostic': { borderLeft: '3px solid var(--problem)', fontFamily: 'var(--sans)' },
  '.cm-diagnostic-warning': { borderLeftColor: 'var(--caution)' },
  '.cm-snippetField': { backgroundColor: 'var(--first-soft)' },
});

/** Colours and measures of the editors, all from the page's tokens. */
export const theme = [frame, syntaxHighlighting(letters)];
