import type { PropertyValues } from 'lit';
import type { Control } from '../../view/controls.ts';
import { freshId, LightElement } from '../light.ts';
import { LatestWins } from './latestWins.ts';

/**
 * One control of a cell on the page. What the reader set last is shown until the engine has caught up, so a
 * slower answer to an earlier move never pulls the handle back.
 */
export abstract class ControlElement<C extends Control> extends LightElement {
  static override properties = {
    control: { attribute: false },
    value: { attribute: false },
    move: { attribute: false },
    fault: { state: true },
  };

  declare control: C;
  /** The value the engine holds. */
  declare value: C['value'];
  /** Tells the engine; resolves when everything in sight that reads the control has run. */
  declare move: (value: unknown) => Promise<void>;
  /** What is wrong with the entry just made, in a sentence; '' for nothing. */
  declare fault: string;
  protected readonly fieldId = freshId('field');
  #set: { value: C['value'] } | null = null;
  readonly #moves = new LatestWins<C['value']>((value) => this.move(value));

  constructor() {
    super();
    this.fault = '';
  }

  /** The value to show. */
  protected get current(): C['value'] {
    return this.#set ? this.#set.value : this.value;
  }

  protected async set(value: C['value']): Promise<void> {
    this.fault = '';
    this.#set = { value };
    this.requestUpdate();
    await this.#moves.send(value);
  }

  /** What was set is shown until the page brings what the engine holds, which is a moment after the engine has it. */
  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has('value') && !this.#moves.busy) this.#set = null;
  }
}
