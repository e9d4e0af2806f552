import { html, nothing } from 'lit';
import { isView } from '../view/view.ts';
import type { CellState } from '../workbook/engineTypes.ts';
import { plain } from './results/inspect.ts';
import { partsOf } from './results/partsOf.ts';
import { type Heading, headingsOf } from './results/prose.ts';

/** Deeper headings would make the list long. */
const DEEPEST = 2;
/** On a narrow page the list would fill the window, so it starts folded. */
const WIDE = '(min-width: 701px)';

/** The Markdown in what a cell shows, in order. */
const proseIn = (shown: unknown): string[] =>
  [...partsOf(shown)].flatMap((part) => {
    if (typeof part === 'string') return [part];
    return isView(part) && part.view === 'prose' ? [plain(part.markdown)] : [];
  });

/** The heading that prose opens with, in the code of a cell. */
const OPENING_HEADING = /prose`\s*(#+ [^\n`]+)/g;

/**
 * The headings of the results; each cell's are read once for each result. Until there is one, those in its code stand for
 * them, so that the list has its length from the start and pushes nothing down.
 */
export class Contents {
  readonly #known = new Map<string, { of: unknown; headings: Heading[] }>();

  #headings({ name, text, shown }: CellState): Heading[] {
    const of = shown === undefined ? `code: ${text}` : shown;
    const known = this.#known.get(name);
    if (known?.of === of) return known.headings;
    const found =
      shown === undefined ? [...text.matchAll(OPENING_HEADING)].map(([, line]) => line!) : proseIn(shown);
    const headings = found.flatMap(headingsOf).filter(({ depth }) => depth <= DEEPEST);
    this.#known.set(name, { of, headings });
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
