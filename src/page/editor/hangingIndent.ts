import type { Range } from '@codemirror/state';
import {
  Decoration,
  type DecorationSet,
  type EditorView,
  ViewPlugin,
  type ViewUpdate,
} from '@codemirror/view';
import { indentOf } from './codeLine.ts';

function indents(view: EditorView): DecorationSet {
  const marks: Range<Decoration>[] = [];
  for (const { from, to } of view.visibleRanges) {
    for (let at = from; at <= to; ) {
      const line = view.state.doc.lineAt(at);
      const style = `--indent:${indentOf(line.text)}`;
      marks.push(Decoration.line({ attributes: { style } }).range(line.from));
      at = line.to + 1;
    }
  }
  return Decoration.set(marks);
}

/** A line that is wrapped goes on a little to the right of where it began. */
export const hangingIndent = ViewPlugin.fromClass(
  class {
    decorations: DecorationSet;

    constructor(view: EditorView) {
      this.decorations = indents(view);
    }

    update(update: ViewUpdate): void {
      if (update.docChanged || update.viewportChanged) this.decorations = indents(update.view);
    }
  },
  { decorations: (plugin) => plugin.decorations },
);
