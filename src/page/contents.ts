import { html, nothing } from 'lit';
import { isView } from '../view/view.ts';
import type { CellState } from '../workbook/engineTypes.ts';
import { plain } from './results/inspect.ts';
import { type Heading, headingsOf } from './results/prose.ts';

/** Deeper headings would make the list long. */
const DEEPEST = 2;
/** On a narrow page the list would fill the window, so it starts folded. */
const WIDE = '(min-width: 701px)';

/** The Markdown in what a cell shows, in order. */
function proseIn(shown: unknown): string[] {
  if (typeof shown === 'string') return [shown];
  if (Array.isArray(shown)) return shown.flatMap(proseIn);
  if (!isView(shown)) return [];
  if (shown.view === 'prose') return [plain(shown.markdown)];
  return shown.view === 'stack' && Array.isArray(shown.items) ? shown.items.flatMap(proseIn) : [];
}

/** The headings of the results; each cell's are read once for each result. */
export class Contents {
  readonly #known = new Map<string, { shown: unknown; headings: Heading[] }>();

  #headings({ name, shown }: CellState): Heading[] {
    const known = this.#known.get(name);
    if (known?.shown === shown) return known?.headings ?? [];
    const headings = proseIn(shown)
      .flatMap(headingsOf)
      .filter(({ depth }) => depth <= DEEPEST);
    this.#known.set(name, { shown, headings });
    return headings;
  }

  /** A list that leads to the cells with headings; `jump` goes to a cell. */
  list(states: readonly CellState[], jump: (cell: string) => void): unknown {
    const entries = states.flatMap((state) =>
      this.#headings(state).map(
        ({ depth, content }) => html`<li class=${`depth-${depth}`}><button type="button" class="quiet"
          @click=${() => jump(state.name)}>${content}</button></li>`,
      ),
    );
    if (entries.length < 2) return nothing;
    return html`<nav class="contents" aria-label="Contents"><details ?open=${matchMedia(WIDE).matches}>
      <summary>Contents</summary><ul>${entries}</ul>
    </details></nav>`;
  }
}
