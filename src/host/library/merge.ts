import type { WorkbookDocument } from '../../workbook/document.ts';
import { newId } from '../workbookDocument.ts';

interface Merge {
  /** To be stored as new records. */
  added: WorkbookDocument[];
  /** Likewise, since another state of the same workbook is here: both stay. */
  beside: WorkbookDocument[];
  /** How many are here already. */
  alike: number;
}

const contentOf = ({ cells, settings }: WorkbookDocument): string => JSON.stringify([cells, settings]);
const titled = (title: string, document: WorkbookDocument): string => `${title}\n${contentOf(document)}`;

/** What to add so that everything in `incoming` is here and nothing here changes. `taken` are ids in use. */
export function mergeLibrary(
  present: readonly WorkbookDocument[],
  incoming: readonly WorkbookDocument[],
  taken: ReadonlySet<string>,
): Merge {
  const contents = new Map(present.map((document) => [document.id, contentOf(document)]));
  const known = new Set(present.map((document) => titled(document.title, document)));
  const ids = new Set(taken);
  const merge: Merge = { added: [], beside: [], alike: 0 };
  for (const document of incoming) {
    const { id, title } = document;
    const asItCame = known.has(titled(title, document)) || contents.get(id) === contentOf(document);
    if (asItCame || known.has(titled(besideTitle(document), document))) {
      merge.alike++;
    } else if (ids.has(id)) {
      merge.beside.push({ ...document, id: newId(), title: besideTitle(document) });
    } else {
      merge.added.push(document);
      ids.add(id);
    }
  }
  return merge;
}

const besideTitle = ({ title, changed }: WorkbookDocument): string =>
  `${title} (from a file, as of ${changed.slice(0, 16).replace('T', ' ')})`;
