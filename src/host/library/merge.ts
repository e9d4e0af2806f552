import type { WorkbookDocument } from '../../workbook/document.ts';
import { newId } from '../workbookDocument.ts';

interface Merge {
  /** To be stored as new records. */
  added: WorkbookDocument[];
  /** Likewise, since another state of the same workbook is here: both stay. */
  beside: WorkbookDocument[];
  /** How many are here already. */
  alike: number;
  /** Under which id here each id of the file is found: its earlier versions go there. */
  found: Map<string, string>;
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
  const known = new Map(present.map((document) => [titled(document.title, document), document.id]));
  const ids = new Set(taken);
  const merge: Merge = { added: [], beside: [], alike: 0, found: new Map() };
  for (const document of incoming) {
    const { id } = document;
    const here = alikeOf(document);
    const kept = here === undefined && ids.has(id) ? besideOf(document) : document;
    if (here !== undefined) merge.alike++;
    else (kept === document ? merge.added : merge.beside).push(kept);
    ids.add(id);
    if (!merge.found.has(id)) merge.found.set(id, here ?? kept.id);
  }
  return merge;

  function alikeOf(document: WorkbookDocument): string | undefined {
    const { id, title } = document;
    if (contents.get(id) === contentOf(document)) return id;
    return known.get(titled(title, document)) ?? known.get(titled(besideTitle(document), document));
  }
}

const besideOf = (document: WorkbookDocument): WorkbookDocument => ({
  ...document,
  id: newId(),
  title: besideTitle(document),
});

const besideTitle = ({ title, changed }: WorkbookDocument): string =>
  `${title} (from a file, as of ${changed.slice(0, 16).replace('T', ' ')})`;
