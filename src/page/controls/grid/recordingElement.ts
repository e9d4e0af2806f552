import { html, nothing, svg } from 'lit';
import type { OpenedRecording, Span, Stretch, Windows } from '../../../toolkit/files.ts';
import { LightElement } from '../../light.ts';
import { plain } from '../../results/inspect.ts';
import { courseOf } from './course.ts';
import { type End, nearestEnd, withEnd, withSplit } from './cut.ts';
import { messageOf } from './messageOf.ts';
import { readStopwatch, stopwatch } from './times.ts';

const HEIGHT = 100;
/** How near to an end the pointer takes hold of it, px. */
const REACH = 12;
/** By how much the arrow keys move an end, s. */
const KEY_STEP = 5;

const entryIn = (event: Event) => (event.target as HTMLInputElement).value;

/**
 * A recording before it becomes rows of a table: its course, the stretches it is cut into, whose ends can be moved by mouse
 * and keyboard, and the lactate samples that belong to them.
 */
class HourRecording extends LightElement {
  static override properties = {
    recording: { attribute: false },
    by: { state: true },
    spans: { state: true },
    taken: { state: true },
    windows: { state: true },
    fault: { state: true },
  };

  declare recording: OpenedRecording;
  declare name: string;
  /** Takes the text of the table; throws what is wrong with it. */
  declare use: (text: string) => void;
  declare cancel: () => void;
  /** How it was cut at first. */
  declare by: 'laps' | 'steps';
  declare spans: Span[];
  declare taken: boolean[];
  declare windows: Windows;
  declare fault: string;
  #stretches: Stretch[] = [];
  #held: End | null = null;

  constructor() {
    super();
    this.windows = { intensity: 60, heartRate: 30 };
    this.fault = '';
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('recording')) this.#cut(this.recording.hasLaps ? 'laps' : 'steps');
    if (changed.has('recording') || changed.has('spans') || changed.has('windows'))
      this.#stretches = this.recording.stretches(this.spans, this.windows);
  }

  #cut(by: 'laps' | 'steps'): void {
    const { spans, taken } = this.recording.cut(by);
    this.by = by;
    this.spans = spans;
    this.taken = taken;
  }

  protected override firstUpdated(): void {
    this.querySelector<HTMLElement>('h4')!.focus();
  }

  protected override render() {
    const { notes, use } = this.recording;
    return html`<div class="recording">
      <h4 tabindex="-1">${plain(this.name)}</h4>
      <p class="hint">Began ${this.#began()} by the clock of this computer. Move the ends in the picture, or in the table with the arrow keys; untick what is not to be taken.</p>
      ${notes.map((note) => html`<p class="hint">${plain(note)}</p>`)}
      ${this.#wayOfCutting()} ${this.#overview()} ${this.#table()} ${this.#windowFields()} ${this.#samplesField()}
      ${this.fault ? html`<p class="fault" role="alert">${this.fault}</p>` : nothing}
      <div class="tools">
        <button type="button" class="main" @click=${this.#useIt}>Use these ${use}</button>
        <button type="button" @click=${() => this.cancel()}>Cancel</button>
      </div>
    </div>`;
  }

  #began(): string {
    return new Date(this.recording.start).toLocaleString('en-GB', { dateStyle: 'long', timeStyle: 'short' });
  }

  /** Laps may be those that a device sets by itself, each kilometre. */
  #wayOfCutting() {
    if (!this.recording.hasLaps) return html`<p class="hint">Cut where its intensity steps.</p>`;
    const ways = { laps: 'by its laps', steps: 'where its intensity steps' } as const;
    const chosen = (event: Event) => this.#cut(entryIn(event) as 'laps' | 'steps');
    return html`<label class="headings-choice"><span>Cut</span> <select aria-label="Cut" @change=${chosen}>${(
      ['laps', 'steps'] as const
    ).map(
      (way) => html`<option value=${way} ?selected=${way === this.by}>${ways[way]}</option>`,
    )}</select></label>`;
  }

  #overview() {
    const { outline, length, unit, use } = this.recording;
    const { path, most, isInterrupted } = courseOf(outline, length, HEIGHT);
    const label = `Intensity over ${stopwatch(length)}, with ${this.taken.filter(Boolean).length} ${use} marked`;
    return html`<svg class="course" viewBox="0 0 ${length} ${HEIGHT}" preserveAspectRatio="none" role="img" aria-label=${label}
      @pointerdown=${this.#hold} @pointermove=${this.#drag} @pointerup=${this.#release} @pointercancel=${this.#release}>
      ${this.spans.map(
        ({ start, end }, i) =>
          svg`<rect class=${this.taken[i] ? 'taken' : 'left'} x=${start} width=${end - start} y="0" height=${HEIGHT}></rect>`,
      )}
      <path d=${path}></path>
    </svg>
    <p class="hint course-ends"><span>0:00</span>
      <span>0 to ${this.#intensity(most)} ${unit}${isInterrupted ? '; no line where nothing was recorded' : ''}</span>
      <span>${stopwatch(length)}</span></p>`;
  }

  #intensity(value: number): string {
    return value.toFixed(this.recording.unit === 'W' ? 0 : 1);
  }

  #secondAt(event: PointerEvent): { second: number; perPixel: number } {
    const { left, width } = (event.currentTarget as Element).getBoundingClientRect();
    const perPixel = this.recording.length / width;
    return { second: (event.clientX - left) * perPixel, perPixel };
  }

  #hold(event: PointerEvent): void {
    const { second, perPixel } = this.#secondAt(event);
    this.#held = nearestEnd(this.spans, second, REACH * perPixel);
    if (this.#held) (event.currentTarget as Element).setPointerCapture(event.pointerId);
  }

  #drag(event: PointerEvent): void {
    if (this.#held) this.#move(this.#held, this.#secondAt(event).second);
  }

  #release(): void {
    this.#held = null;
  }

  #move(end: End, second: number): void {
    this.spans = withEnd(this.spans, end, second, this.recording.length);
  }

  #table() {
    const { unit } = this.recording;
    return html`<div class="table-scroll"><table>
      <thead><tr>
        <th scope="col">Take</th><th scope="col">No</th><th scope="col">From</th><th scope="col">To</th>
        <th scope="col" class="right">${unit}</th><th scope="col" class="right">bpm</th><th scope="col">Remarks</th><th scope="col"><span class="hidden-text">Split</span></th>
      </tr></thead>
      <tbody>${this.#stretches.map((stretch, i) => this.#row(stretch, i))}</tbody>
    </table></div>`;
  }

  #row({ intensity, heartRate, notes }: Stretch, index: number) {
    const number = this.taken[index] ? this.taken.slice(0, index + 1).filter(Boolean).length : '';
    const toggle = () => {
      this.taken = this.taken.map((taken, i) => (i === index ? !taken : taken));
    };
    const split = () => {
      const spans = withSplit(this.spans, index);
      if (spans.length > this.spans.length) this.taken = this.taken.toSpliced(index, 0, this.taken[index]!);
      this.spans = spans;
    };
    return html`<tr>
      <td><input type="checkbox" aria-label=${`Take stretch ${index + 1}`} .checked=${this.taken[index]} @change=${toggle}></td>
      <td>${number}</td>
      <td>${this.#endField({ index, side: 'start' })}</td>
      <td>${this.#endField({ index, side: 'end' })}</td>
      <td class="right">${intensity === null ? '' : this.#intensity(intensity)}</td>
      <td class="right">${heartRate === null ? '' : heartRate.toFixed(0)}</td>
      <td>${notes.map(plain).join(' ')}</td>
      <td><button type="button" class="quiet" aria-label=${`Split stretch ${index + 1} in two`} @click=${split}>Split</button></td>
    </tr>`;
  }

  #endField(end: End) {
    const { index, side } = end;
    const second = this.spans[index]![side];
    const onKey = (event: KeyboardEvent) => {
      const step = { ArrowUp: KEY_STEP, ArrowDown: -KEY_STEP }[event.key];
      if (step === undefined) return;
      event.preventDefault();
      this.#move(end, second + step);
    };
    const onChange = (event: Event) => {
      const typed = readStopwatch(entryIn(event));
      this.fault =
        typed === null
          ? `"${entryIn(event)}" is no time in the recording; expected min:s, such as 12:30`
          : '';
      if (typed !== null) this.#move(end, typed);
      this.requestUpdate();
    };
    return html`<input class="number-entry" type="text" autocomplete="off"
      aria-label=${`${side === 'start' ? 'Start' : 'End'} of stretch ${index + 1}, min:s`}
      .value=${stopwatch(second)} @keydown=${onKey} @change=${onChange}>`;
  }

  #windowFields() {
    const field = (label: string, window: keyof Windows) => html`<label>${label}
      <input class="number-entry" type="number" min="5" max="600" step="5" .value=${String(this.windows[window])}
        @change=${(event: Event) => {
          const seconds = Number(entryIn(event));
          if (seconds >= 5 && seconds <= 600) this.windows = { ...this.windows, [window]: seconds };
        }}> s</label>`;
    return html`<div class="tools">
      ${field('Mean intensity of the last', 'intensity')} ${field('heart rate of the last', 'heartRate')}
    </div>`;
  }

  #samplesField() {
    return html`<label class="samples">Lactate samples, one a line (or enter them in the table afterwards)
      <textarea rows="4" spellcheck="false" placeholder="10:42 2.1, or 3 2.1 for the third, or +24:00 2.1 from the start"></textarea>
    </label>`;
  }

  #useIt(): void {
    const taken = this.#stretches.filter((_, i) => this.taken[i]);
    const samples = this.querySelector('textarea')!.value;
    try {
      // Clocks were perhaps set otherwise on the day of the recording.
      const offset = -new Date(this.recording.start).getTimezoneOffset();
      this.use(this.recording.table(taken, samples, offset));
    } catch (error) {
      this.fault = messageOf(error);
    }
  }
}

customElements.define('hour-recording', HourRecording);
