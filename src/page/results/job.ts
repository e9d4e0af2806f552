import { html, nothing, type PropertyValues } from 'lit';
import type { JobStep, JobView, Showable } from '../../view/view.ts';
import { LightElement } from '../light.ts';
import { inspect, plain } from './inspect.ts';
import { type Drawing, drawingFault, showable } from './showable.ts';
import { inSlices } from './slices.ts';

/** A job that begins by itself waits so long after the last change, ms: until the hand rests. */
const REST = 500;
/** A press so soon after a job began by itself was meant for Begin, which stood there until then, ms. */
const MEANT_FOR_BEGIN = 400;
/** What a job has is drawn again at most this often, ms. */
const REDRAW = 300;

type Phase = 'waiting' | 'running' | 'done' | 'cancelled';

/** What the button does that a job has until it is done. */
const BUTTON = { waiting: 'Begin', running: 'Cancel', cancelled: 'Begin again' } as const;

/** A computation that takes long: its progress, a way to begin and to cancel it, and what it has so far. */
class HourJob extends LightElement {
  static override properties = {
    view: { attribute: false },
    drawing: { attribute: false },
    phase: { state: true },
    step: { state: true },
    shown: { state: true },
  };

  declare view: JobView;
  declare drawing: Drawing;
  declare phase: Phase;
  /** The latest step; null before the first. */
  declare step: JobStep | null;
  declare shown: Showable;
  #stop: AbortController | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #observer: IntersectionObserver | null = null;
  #visible = false;
  #drawn = 0;
  /** When the job began by itself; null for one that was asked to. */
  #beganByItself: number | null = null;

  constructor() {
    super();
    this.phase = 'waiting';
    this.step = null;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer = new IntersectionObserver((entries) => {
      this.#visible = entries.at(-1)!.isIntersecting;
      this.#beginAtRest();
    });
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
    this.#end();
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('view')) return;
    this.#end();
    this.phase = 'waiting';
    this.step = null;
    // What an earlier run of the cell came to stays in sight, paler, until there is something newer.
    const earlier = this.view.live ? undefined : changed.get('view')?.latest;
    this.shown = earlier ?? this.view.before;
    this.view.latest = this.view.before;
    this.#beginAtRest();
  }

  #end(): void {
    clearTimeout(this.#timer);
    this.#stop?.abort();
    this.#stop = null;
  }

  #beginAtRest(): void {
    clearTimeout(this.#timer);
    if (!this.#visible || this.phase !== 'waiting' || this.view?.begin !== 'at-rest') return;
    this.#timer = setTimeout(() => {
      this.#beganByItself = performance.now();
      void this.#begin();
    }, REST);
  }

  readonly #beginAsked = (): void => {
    this.#beganByItself = null;
    void this.#begin();
  };

  async #begin(): Promise<void> {
    this.#end();
    const stop = new AbortController();
    this.#stop = stop;
    this.phase = 'running';
    try {
      const ended = await inSlices(this.view.steps(), (step) => this.#told(step), stop);
      if (stop.signal.aborted) return;
      this.phase = ended ? 'done' : 'cancelled';
      if (this.step) this.#show(this.step.shown());
    } catch (error) {
      if (stop.signal.aborted) return;
      this.phase = 'cancelled';
      this.#show(`This computation failed: ${error instanceof Error ? error.message : inspect(error)}`);
    }
  }

  readonly #cancel = ({ timeStamp }: Event): void => {
    if (this.#beganByItself !== null && timeStamp - this.#beganByItself < MEANT_FOR_BEGIN) return;
    this.#end();
    this.phase = 'cancelled';
    if (this.step) this.#show(this.step.shown());
  };

  #told(step: JobStep): void {
    this.step = step;
    if (performance.now() - this.#drawn < REDRAW) return;
    this.#show(step.shown());
  }

  #show(shown: Showable): void {
    this.#drawn = performance.now();
    this.shown = shown;
    this.view.latest = shown;
  }

  /** One button that changes, so that the focus stays on it. */
  #button(phase: Exclude<Phase, 'done'>) {
    const act = phase === 'running' ? this.#cancel : this.#beginAsked;
    return html`<button type="button" @click=${act}>${BUTTON[phase]}</button>`;
  }

  #bar() {
    const { phase, step } = this;
    const text = step ? plain(step.text) : '';
    // A cell may tell anything; a progress bar takes numbers alone.
    const share = Number.isFinite(step?.share) ? step!.share : 0;
    return html`<div class="job-bar">
      <span class="job-label">${plain(this.view.label)}</span>
      ${
        phase === 'running'
          ? html`<progress max="1" .value=${share} aria-label=${plain(this.view.label)}></progress>`
          : nothing
      }
      ${phase === 'done' ? nothing : this.#button(phase)}
      <span class="job-text" role="status">${phase === 'cancelled' ? `Cancelled. ${text}` : text}</span>
    </div>`;
  }

  #body() {
    try {
      return showable(this.shown, this.drawing);
    } catch (error) {
      return drawingFault(error);
    }
  }

  protected override render() {
    const earlier = this.step === null && this.shown !== this.view.before;
    return html`${this.#bar()}<div class="job-body ${earlier ? 'earlier' : ''}">${this.#body()}</div>`;
  }
}

customElements.define('hour-job', HourJob);
