import {
  autocompletion,
  type CompletionSource,
  closeBrackets,
  closeBracketsKeymap,
  completionKeymap,
} from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap, indentWithTab, isolateHistory } from '@codemirror/commands';
import { javascript } from '@codemirror/lang-javascript';
import { bracketMatching, indentOnInput, indentUnit } from '@codemirror/language';
import { type Diagnostic, setDiagnostics } from '@codemirror/lint';
import { Annotation, EditorState, Prec, type Text } from '@codemirror/state';
import { drawSelection, EditorView, keymap } from '@codemirror/view';
import { offeredNames } from './completion.ts';
import { hangingIndent } from './hangingIndent.ts';
import { theme } from './theme.ts';
import type { CodeEditor, EditorOptions } from './types.ts';

/** Marks a change that did not come from the user of this editor. */
const fromElsewhere = Annotation.define<boolean>();

/** The span from the first to the last difference, so that cursor and undo steps elsewhere stay good. */
function difference(old: string, text: string): { from: number; to: number; insert: string } {
  let from = 0;
  while (from < old.length && from < text.length && old[from] === text[from]) from++;
  let tail = 0;
  while (tail < Math.min(old.length, text.length) - from && old.at(-1 - tail) === text.at(-1 - tail)) tail++;
  return { from, to: old.length - tail, insert: text.slice(from, text.length - tail) };
}

/** Position of a 1-based line and column, kept inside the text. */
function position(doc: Text, line: number, column: number): number {
  const at = doc.line(Math.max(1, Math.min(line, doc.lines)));
  return Math.min(at.from + Math.max(0, column - 1), at.to);
}

/** What to underline for a problem that is a point: the word there, or one character. */
function span(state: EditorState, line: number, column: number): { from: number; to: number } {
  const at = position(state.doc, line, column);
  const word = state.wordAt(at);
  if (word && word.from <= at) return { from: at, to: Math.max(word.to, at + 1) };
  const end = state.doc.lineAt(at).to;
  return at < end ? { from: at, to: at + 1 } : { from: Math.max(state.doc.lineAt(at).from, at - 1), to: at };
}

/** The same source each time it is asked for: the editor tells sources apart by identity. */
const languageData = (autocomplete: CompletionSource) =>
  EditorState.languageData.of(() => [{ autocomplete }]);

/** Longer than anybody stays. */
const UNTIL_A_KEY = 1e12;

/** Tab goes on to what comes next until a key or the mouse is used here: who only passes by does not indent the code. */
const tabPassesBy = EditorView.domEventHandlers({
  focus: (_, view) => view.setTabFocusMode(UNTIL_A_KEY),
  mouseup: (_, view) => view.setTabFocusMode(false),
});

const extensions = (options: EditorOptions) => [
  Prec.highest(
    keymap.of([
      {
        key: 'Mod-Enter',
        run: () => {
          options.run();
          return true;
        },
      },
    ]),
  ),
  history(),
  drawSelection(),
  indentOnInput(),
  indentUnit.of('  '),
  EditorState.tabSize.of(2),
  bracketMatching(),
  closeBrackets(),
  autocompletion({ icons: false }),
  languageData(offeredNames(options.offers)),
  javascript({ typescript: true }),
  EditorView.lineWrapping,
  hangingIndent,
  tabPassesBy,
  EditorView.contentAttributes.of({
    'aria-label': `${options.label}. Escape, then Tab, leaves the editor.`,
    spellcheck: 'false',
    autocapitalize: 'off',
  }),
  keymap.of([...closeBracketsKeymap, ...defaultKeymap, ...historyKeymap, ...completionKeymap, indentWithTab]),
  theme,
  EditorView.updateListener.of((update) => {
    const ours = update.transactions.some((transaction) => transaction.annotation(fromElsewhere));
    if (update.docChanged && !ours) options.changed(update.state.doc.toString());
  }),
];

/** An editor for one cell's text; its `dom` is for the caller to place. */
export function createEditor(options: EditorOptions): CodeEditor {
  const view = new EditorView({
    state: EditorState.create({ doc: options.text, extensions: extensions(options) }),
  });
  return {
    dom: view.dom,
    get text() {
      return view.state.doc.toString();
    },
    get hasFocus() {
      return view.hasFocus;
    },
    setText(text) {
      if (text === view.state.doc.toString()) return;
      view.dispatch({
        changes: difference(view.state.doc.toString(), text),
        annotations: [fromElsewhere.of(true), isolateHistory.of('full')],
      });
    },
    setProblems(problems) {
      const diagnostics = problems.flatMap(({ line, column, message, severity }): Diagnostic[] =>
        line === null ? [] : [{ ...span(view.state, line, column ?? 1), message, severity }],
      );
      view.dispatch(setDiagnostics(view.state, diagnostics));
    },
    goTo(line, column) {
      view.dispatch({ selection: { anchor: position(view.state.doc, line, column) }, scrollIntoView: true });
      view.focus();
      view.setTabFocusMode(false);
    },
    focus: () => view.focus(),
    destroy: () => view.destroy(),
  };
}
