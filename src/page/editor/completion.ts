import type { Completion, CompletionContext, CompletionResult } from '@codemirror/autocomplete';
import { pickedCompletion } from '@codemirror/autocomplete';
import { syntaxTree } from '@codemirror/language';
import type { EditorView } from '@codemirror/view';
import { importEdit } from './importEdit.ts';
import type { Offer } from './types.ts';

/** Puts the name in and, when the cell does not have it yet, its import too: one step for undo. */
function withImport(name: string, source: string): Completion['apply'] {
  return (view: EditorView, completion: Completion, from: number, to: number) => {
    const addition = importEdit(view.state.doc.toString(), name, source);
    const changes = [{ from, to, insert: name }];
    view.dispatch({
      changes: addition ? [addition, ...changes] : changes,
      selection: { anchor: from + name.length + shift(addition, from) },
      annotations: pickedCompletion.of(completion),
      userEvent: 'input.complete',
      scrollIntoView: true,
    });
  };
}

const shift = (edit: { from: number; to: number; insert: string } | null, position: number): number =>
  edit && edit.from <= position ? edit.insert.length - (edit.to - edit.from) : 0;

const options = (offers: readonly Offer[]): Completion[] =>
  offers.flatMap(({ source, names }) =>
    names
      .filter((name) => name !== 'default')
      .map((name) => ({ label: name, detail: source, type: 'variable', apply: withImport(name, source) })),
  );

const NOT_CODE = /String|Comment|Template|PropertyName|PropertyDefinition|RegExp/;

/** Sources of imports, completed inside the quotes. */
function sourceNames(context: CompletionContext, offers: readonly Offer[]): CompletionResult | null {
  const quoted = context.matchBefore(/from\s*['"][^'"\n]*/);
  if (!quoted) return null;
  const from = quoted.from + quoted.text.search(/['"]/) + 1;
  return { from, options: offers.map(({ source }) => ({ label: source, type: 'text' })) };
}

/** Names of the toolkit and of other cells. */
export const offeredNames =
  (offers: () => readonly Offer[]) =>
  (context: CompletionContext): CompletionResult | null => {
    const sources = sourceNames(context, offers());
    if (sources) return sources;
    const word = context.matchBefore(/[\w$]+/);
    if (!word && !context.explicit) return null;
    if (NOT_CODE.test(syntaxTree(context.state).resolveInner(context.pos, -1).name)) return null;
    return { from: word?.from ?? context.pos, options: options(offers()), validFor: /^[\w$]*$/ };
  };
