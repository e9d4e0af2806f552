import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { unbroken } from '../../base/format.ts';
import type { Choice, Control, Keeper, NumberField, Slider, TextField, Toggle } from '../../view/controls.ts';
import { plain } from '../results/inspect.ts';
import { aboutButton, aboutId } from './about.ts';
import { ControlElement } from './controlElement.ts';
import { formatted, readNumber } from './numbers.ts';

const MOST_RADIOS = 4;

const entry = (event: Event) => (event.target as HTMLInputElement).value;
const help = (id: string, text?: string) =>
  text ? html`<p class="help" id=${`${id}-help`}>${unbroken(plain(text))}</p>` : nothing;
const problem = (id: string, text: string) =>
  text ? html`<p class="fault" id=${`${id}-fault`} role="alert">${text}</p>` : nothing;
/** The label of a field, and what it means for whoever asks. */
const named = (id: string, control: Control) =>
  html`<span class="named"><label for=${id}>${plain(control.label)}</label>${aboutButton(id, control)}</span>`;
const unitMark = (unit: string) => (unit ? html`<span class="unit">${plain(unit)}</span>` : nothing);

/** A number typed into a small box, used by slider and number field alike. */
abstract class NumberEntry<C extends Slider | NumberField> extends ControlElement<C> {
  protected abstract accept(typed: string): { value: C['value'] } | { fault: string };

  protected take(event: Event): void {
    const read = this.accept(entry(event));
    if ('fault' in read) this.fault = read.fault;
    else void this.set(read.value);
  }

  protected box(id: string, label: string | typeof nothing) {
    const value = this.current;
    const shown = value === null ? '' : formatted(value, this.control.step);
    return html`<span class="held box"><input class="number-entry" id=${id} type="text" inputmode="decimal"
      autocomplete="off" aria-label=${label} aria-invalid=${this.fault ? 'true' : nothing}
      aria-describedby=${`${this.fieldId}-fault ${this.fieldId}-help ${aboutId(this.fieldId)}`}
      .value=${live(shown)} @change=${this.take}></span>`;
  }
}

class HourSlider extends NumberEntry<Slider> {
  protected accept(typed: string) {
    return readNumber(typed, this.control);
  }

  protected override render() {
    const { label, unit, min, max, step } = this.control;
    return html`<div class="control slider">
      ${named(this.fieldId, this.control)}
      <span class="held track"><input id=${this.fieldId} type="range" aria-describedby=${aboutId(this.fieldId)}
        min=${min} max=${max} step=${step} .value=${live(String(this.current))}
        aria-valuetext=${`${formatted(this.current, step)} ${unit}`.trim()}
        @input=${(event: Event) => void this.set(Number(entry(event)))}></span>
      <span class="entry">${this.box(`${this.fieldId}-entry`, `${plain(label)}, as a number`)}${unitMark(unit)}</span>
      ${help(this.fieldId, this.control.help)}${problem(this.fieldId, this.fault)}
    </div>`;
  }
}

class HourNumber extends NumberEntry<NumberField> {
  protected accept(typed: string) {
    return typed.trim() === '' ? { value: null } : readNumber(typed, this.control);
  }

  protected override render() {
    return html`<div class="control number">
      ${named(this.fieldId, this.control)}
      <span class="entry">${this.box(this.fieldId, nothing)}${unitMark(this.control.unit)}</span>
      ${help(this.fieldId, this.control.help)}${problem(this.fieldId, this.fault)}
    </div>`;
  }
}

class HourChoice extends ControlElement<Choice> {
  #select() {
    return html`<div class="control choice">
      ${named(this.fieldId, this.control)}
      <select id=${this.fieldId} aria-describedby=${aboutId(this.fieldId)} @change=${(event: Event) => void this.set(entry(event))}>${this.control.options.map(
        (option) =>
          html`<option value=${option.value} .selected=${live(option.value === this.current)}>${plain(option.label)}</option>`,
      )}</select>
      ${help(this.fieldId, this.control.help)}
    </div>`;
  }

  #radios() {
    const id = this.fieldId;
    return html`<fieldset class="control choice" aria-labelledby=${id} aria-describedby=${aboutId(id)}>
      <legend><span id=${id}>${plain(this.control.label)}</span>${aboutButton(id, this.control)}</legend>
      <div class="radios">${this.control.options.map(
        (option) => html`<label><input type="radio" name=${this.fieldId} value=${option.value}
          .checked=${live(option.value === this.current)}
          @change=${() => void this.set(option.value)}><span>${plain(option.label)}</span></label>`,
      )}</div>
      ${help(this.fieldId, this.control.help)}
    </fieldset>`;
  }

  protected override render() {
    return this.control.options.length > MOST_RADIOS ? this.#select() : this.#radios();
  }
}

class HourToggle extends ControlElement<Toggle> {
  protected override render() {
    return html`<div class="control toggle">
      <label><input type="checkbox" aria-describedby=${aboutId(this.fieldId)} .checked=${live(this.current)}
        @change=${(event: Event) => void this.set((event.target as HTMLInputElement).checked)}><span>${plain(
          this.control.label,
        )}</span></label>${aboutButton(this.fieldId, this.control)}
      ${help(this.fieldId, this.control.help)}
    </div>`;
  }
}

class HourKeeper extends ControlElement<Keeper> {
  protected override render() {
    const label = plain(this.control.label);
    const kept = this.current !== null;
    return html`<div class="control keeper">
      <span class="named"><button type="button" aria-describedby=${aboutId(this.fieldId)}
        @click=${() => void this.set(this.control.offer)}>${kept ? `${label} anew` : label}</button>${aboutButton(this.fieldId, this.control)}</span>
      ${kept ? html`<button type="button" class="quiet" @click=${() => void this.set(null)}>Let go of what is kept</button>` : nothing}
      ${help(this.fieldId, this.control.help)}
    </div>`;
  }
}

/** While a text is typed, it is entered so often, ms: whoever writes a long note loses none of it. */
const ENTERED_AFTER = 400;

class HourText extends ControlElement<TextField> {
  #pause: ReturnType<typeof setTimeout> | undefined;
  /** What stands in the field and is not entered yet; null for nothing. An answer to an earlier entry leaves it alone. */
  #typed: string | null = null;

  #takeSoon(event: Event): void {
    this.#typed = entry(event);
    this.#pause ??= setTimeout(() => this.#take(), ENTERED_AFTER);
  }

  #takeNow(event: Event): void {
    this.#typed = entry(event);
    this.#take();
  }

  #take(): void {
    clearTimeout(this.#pause);
    this.#pause = undefined;
    const typed = this.#typed;
    this.#typed = null;
    if (typed !== null && typed !== this.current) void this.set(typed);
  }

  protected override render() {
    const id = this.fieldId;
    const shown = live(this.#typed ?? this.current);
    return html`<div class="control text">
      ${named(id, this.control)}
      ${
        this.control.lines > 1
          ? html`<textarea id=${id} aria-describedby=${aboutId(id)} rows=${this.control.lines} .value=${shown}
              @input=${this.#takeSoon} @change=${this.#takeNow}></textarea>`
          : html`<input id=${id} type="text" aria-describedby=${aboutId(id)} .value=${shown}
              @input=${this.#takeSoon} @change=${this.#takeNow}>`
      }
      ${help(id, this.control.help)}
    </div>`;
  }
}

customElements.define('hour-slider', HourSlider);
customElements.define('hour-number', HourNumber);
customElements.define('hour-choice', HourChoice);
customElements.define('hour-toggle', HourToggle);
customElements.define('hour-text', HourText);
customElements.define('hour-keeper', HourKeeper);
