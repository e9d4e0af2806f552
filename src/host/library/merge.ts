import type { WorkbookDocument } from '../../workbook/document.ts';
import { newId } from '../workbookDocument.ts';

export interface Merge {
  /** To be stored as new records. */
  added: WorkbookDocument[];
  /** Likewise, since another state of the same workbook is here: both stay. */
  beside: WorkbookDocument[];
  /** How many are here already, word for word. */
  alike: number;
}

const contentOf = ({ cells, settings }: WorkbookDocument): string => JSON.stringify([cells, settings]);

/** What to add so that everything in `incoming` is here and nothing here changes. `taken` are ids in use. */
export function mergeLibrary(
  present: readonly WorkbookDocument[],
  incoming: readonly WorkbookDocument[],
  taken: ReadonlySet<string>,
): Merge {
  const known = new Set(present.map(contentOf));
  const ids = new Set(taken);
  const merge: Merge = { added: [], beside: [], alike: 0 };
  for (const document of incoming) {
    const content = contentOf(document);
    if (known.has(content)) {
      merge.alike++;
      continue;
    }
    known.add(content);
    if (ids.has(document.id)) {
      merge.beside.push({ ...document, id: newId(), title: besideTitle(document) });
    } else {
      merge.added.push(document);
      ids.add(document.id);
    }
  }
  return merge;
}

const besideTitle = ({ title, changed }: WorkbookDocument): string =>
  `${title} (from a file, as of ${changed.slice(0, 16).replace('T', ' ')})`;
