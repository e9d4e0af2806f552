import type * as PlotModule from '@observablehq/plot';
import { html, type PropertyDeclaration, type PropertyValues } from 'lit';
import { unbroken } from '../../base/format.ts';
import { type ChartView, numbersBehind } from '../../view/view.ts';
import type { Hand } from '../hand.ts';
import { LightElement } from '../light.ts';
import { Dragging, type DragTools } from './dragging.ts';
import { inspect, plain } from './inspect.ts';
import { tableView } from './table.ts';
import { turnInto } from './turnInto.ts';

/** Observable Plot as a module, which arrives later than the page. */
export type Plot = typeof PlotModule;

/** The chart library, asked for once and handed on at once when it is there. */
export class PlotSource {
  loaded: Plot | null = null;
  readonly #load: () => Promise<Plot>;
  #loading: Promise<Plot> | null = null;

  constructor(load: () => Promise<Plot>) {
    this.#load = load;
  }

  load(): Promise<Plot> {
    this.#loading ??= this.#load().then((plot) => {
      this.loaded = plot;
      return plot;
    });
    return this.#loading;
  }
}

/** The picture of a chart view as one element, named for screen readers. */
export function drawPicture(view: ChartView, plot: Plot, width: number): Element {
  const drawn: unknown = view.draw({ Plot: plot, document, width });
  if (!(drawn instanceof Element)) throw new TypeError(`draw() returned ${inspect(drawn)}, not an element`);
  const picture = drawn instanceof SVGSVGElement ? drawn : (drawn.querySelector('svg') ?? drawn);
  // An image hides what is in it, and points that can be moved must be found.
  picture.setAttribute('role', view.handles ? 'group' : 'img');
  // Groups of marks come with their kind ('dot') for a name: nobody learns from it, and a group may have none.
  for (const marks of picture.querySelectorAll('g[aria-label]')) marks.removeAttribute('aria-label');
  if (!picture.hasAttribute('aria-label')) picture.setAttribute('aria-label', plain(view.title));
  return drawn;
}

function numbers(view: ChartView) {
  const table = numbersBehind(view);
  return table && html`<details class="numbers"><summary>Numbers</summary>${tableView(table)}</details>`;
}

/** Title, picture, what it says in words, and the numbers behind it. */
export const chartFigure = (view: ChartView, picture: Element) => html`<figure class="figure">
  <figcaption><div class="caption">${plain(view.title)}</div></figcaption>
  <div class="picture">${picture}</div>
  <p class="summary">${unbroken(plain(view.summary))}</p>
  ${numbers(view)}
</figure>`;

/** What a picture shows, and how wide it is. */
interface Shown {
  view: ChartView;
  width: number;
}

/**
 * A live chart: as wide as its place, drawn again when its view or its width changes. The old picture stays until
 * the new one takes its place, or it is turned into that, in the same turn, so nothing flickers and nothing below it moves.
 */
class HourChart extends LightElement {
  static override properties = {
    view: { attribute: false },
    source: { attribute: false },
    drag: { attribute: false },
    hand: { attribute: false },
  };

  declare view: ChartView;
  declare source: PlotSource;
  declare drag: DragTools;
  declare hand: Hand;
  /** Filled by us, not by Lit: it outlives every rendering. */
  readonly #place = document.createElement('div');
  #width = 0;
  #shown: Shown | null = null;
  /** Whether the picture was moved last, and not drawn anew. */
  #isMoved = false;
  #observer: ResizeObserver | null = null;
  readonly #dragging = new Dragging(this.#place, {
    move: (handle, value) => this.drag.move(handle, value),
    offerUndo: (handle, before, after) => this.drag.offerUndo(handle, before, after),
  });

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer = new ResizeObserver(([entry]) => {
      this.#width = Math.floor(entry!.contentRect.width);
      this.#draw();
    });
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
  }

  override requestUpdate(name?: PropertyKey, before?: unknown, options?: PropertyDeclaration): void {
    super.requestUpdate(name, before, options);
    if (name === 'view' && this.hasUpdated) this.#draw();
  }

  /** What is said of a picture that was moved already waits until the hand rests: nobody reads while the picture moves. */
  protected override async scheduleUpdate(): Promise<void> {
    if (this.#isMoved) await this.hand.rests();
    super.scheduleUpdate();
  }

  protected override render() {
    return chartFigure(this.view, this.#place);
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (changed.has('view')) this.#draw();
  }

  #draw(): void {
    const plot = this.source.loaded;
    if (plot === null) {
      this.source.load().then(
        () => this.#draw(),
        (error: unknown) => this.#fault(error),
      );
      return;
    }
    // A chart in a folded part has no width yet; it is drawn when the part opens.
    if (this.#width === 0 || !this.hasUpdated) return;
    const earlier = this.#shown;
    if (earlier?.view === this.view && earlier.width === this.#width) return;
    this.#shown = { view: this.view, width: this.#width };
    try {
      this.#isMoved = earlier !== null && this.#move(earlier);
      if (!this.#isMoved) this.#drawAnew(plot, earlier?.view);
    } catch (error) {
      this.#fault(error);
    }
  }

  /** Moves the picture from what it showed to what it is to show; false where it has to be drawn anew. */
  #move({ view, width }: Shown): boolean {
    const drawn = this.#place.firstElementChild;
    const { moving } = this.view;
    if (!(moving && view.moving && drawn instanceof SVGSVGElement)) return false;
    if (view.moving.frame({ width }) !== moving.frame({ width: this.#width })) return false;
    moving.move(drawn, { width: this.#width });
    return true;
  }

  #drawAnew(plot: Plot, earlier: ChartView | undefined): void {
    const picture = drawPicture(this.view, plot, this.#width);
    const drawn = this.#place.firstElementChild;
    if (drawn && earlier?.still && this.view.still) turnInto(drawn, picture);
    else this.#dragging.show(picture, this.view.handles);
    this.#place.style.minHeight = '';
  }

  /** A chart that cannot be drawn says so in a box of its former height. */
  #fault(error: unknown): void {
    this.#place.style.minHeight = `${this.#place.offsetHeight}px`;
    const message = document.createElement('p');
    message.className = 'notice problem';
    message.textContent = `This chart cannot be drawn: ${error instanceof Error ? error.message : inspect(error)}`;
    this.#place.replaceChildren(message);
  }
}

customElements.define('hour-chart', HourChart);
