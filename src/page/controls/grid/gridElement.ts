import { html, nothing, type PropertyValues } from 'lit';
import {
  type BroughtText,
  type GridMark,
  type GridValue,
  sourceOf,
  type TableSource,
} from '../../../base/grid.ts';
import type { OpenedRecording } from '../../../toolkit/files.ts';
import type { Grid } from '../../../view/controls.ts';
import { plain } from '../../results/inspect.ts';
import { aboutButton, aboutId } from '../about.ts';
import { ControlElement } from '../controlElement.ts';
import { takeFile, takeText } from './bringing.ts';
import { broughtFile } from './broughtFile.ts';
import { checked } from './checked.ts';
import { bringsHeadings, readBlock } from './clipboard.ts';
import { columnProblem } from './columnsPanel.ts';
import { entryAt, following, type Spot, withBlock, withEntry, within } from './edits.ts';
import { gridTable } from './gridTable.ts';
import { gridTools } from './gridTools.ts';
import { History, type Step } from './history.ts';
import { editingKey, type KeyAction, movingKey } from './keys.ts';
import { OutsideMoves } from './outsideMoves.ts';
import { Remembered } from './remembered.ts';
import './recordingElement.ts';

/** What is loaded with the first file that somebody opens. */
export type FilesModule = typeof import('../../../toolkit/files.ts');

/** A longer text is not kept with its table, which then says nothing of it when the workbook is opened again. */
const LONGEST_KEPT = 60_000;

/** A list of choices that is being walked through: from what, and what it has made of that so far. */
interface Correcting {
  /** Of a column, or where the headings are. */
  list: number | 'headings';
  before: Step;
  made: GridValue;
}

/**
 * An editable table. One entry is in focus; typing replaces it, Enter or F2 edits it, Tab goes to the next one,
 * and Escape then Tab leaves. A file that is dropped, picked or pasted is read whole by the control or not at all.
 */
export class HourGrid extends ControlElement<Grid> {
  static override properties = {
    ...ControlElement.properties,
    active: { state: true },
    draft: { state: true },
    pasting: { state: true },
    dropping: { state: true },
    message: { state: true },
    brought: { state: true },
    refused: { state: true },
    columnsOpen: { state: true },
    files: { state: true },
  };

  declare active: Spot;
  /** Text of the entry being edited; null while none is. */
  declare draft: string | null;
  /** Whether the box for pasted text is open. */
  declare pasting: boolean;
  declare dropping: boolean;
  /** What was just done, for screen readers and for reassurance. */
  declare message: string;
  /** The file that is being looked at; null for none. */
  declare brought:
    | { file: File; recording: OpenedRecording }
    | { file: File; sheets: string[]; sheet: string }
    | null;
  /** A text that may be a table if somebody says where its headings are; null for none. */
  declare refused: BroughtText | null;
  /** Whether the columns are laid open for correction. */
  declare columnsOpen: boolean;
  /** What reads files; null until it is first needed. */
  declare files: FilesModule | null;
  /** The correction that the focus is still at. */
  correcting: Correcting | null = null;
  /** Whether the mouse went down on the entry that had the focus already. */
  pressedAgain = false;
  readonly history = new History<Step>();
  /** Where the table came from, while its text is too long to be kept with it. */
  #passing: TableSource | null = null;
  readonly #moves = new OutsideMoves(this.history);
  /** A long table takes long to check. */
  readonly #marks = new Remembered<GridMark[]>();
  #focusWanted = false;
  #leaving = false;

  constructor() {
    super();
    this.active = { row: 0, column: 0 };
    this.draft = null;
    this.pasting = false;
    this.dropping = false;
    this.message = '';
    this.brought = null;
    this.refused = null;
    this.columnsOpen = false;
    this.files = null;
  }

  get grid(): GridValue {
    const { headings, rows } = this.current;
    return { headings, rows };
  }

  /** Where the table came from; null for one that was typed. */
  get source(): TableSource | null {
    return this.#passing ?? sourceOf(this.current);
  }

  /** Stem of the ids of this table's parts. */
  get key(): string {
    return this.fieldId;
  }

  /** Remarks on the table as it stands, the entry being typed included. */
  get marks(): GridMark[] {
    const { control, current, draft, active } = this;
    const grid = () => (draft === null ? this.grid : withEntry(this.grid, active, draft));
    return this.#marks.of([control, current, draft, draft && active], () => checked(control, grid()));
  }

  get step(): Step {
    return { grid: this.grid, source: this.source };
  }

  /** The one way the table changes: with a step to take it back. With other columns it is no longer what was brought. */
  change(grid: GridValue, message = '', source?: TableSource | null): void {
    const kept = grid.headings.length === this.grid.headings.length ? this.source : null;
    this.history.record(this.step);
    this.#show({ grid, source: source === undefined ? kept : source }, message);
  }

  /** Replaces what the last change made: still one step to take back. */
  amend(step: Step, message: string): void {
    this.#show(step, message);
  }

  undo(): void {
    const step = this.history.undo(this.step);
    if (step) this.#show(step, 'Undone');
  }

  redo(): void {
    const step = this.history.redo(this.step);
    if (step) this.#show(step, 'Done again');
  }

  #show({ grid, source }: Step, message: string): void {
    const isKept = source !== null && source.brought.text.length <= LONGEST_KEPT;
    this.draft = null;
    this.#passing = isKept ? null : source;
    this.#moves.own(grid);
    this.refused = null;
    this.message = message;
    void this.set(isKept ? { ...grid, source } : grid);
    this.active = within(grid, this.active);
  }

  goTo(spot: Spot): void {
    this.commit();
    this.active = within(this.grid, spot);
    this.#focusWanted = true;
    this.requestUpdate();
  }

  edit(text = entryAt(this.grid, this.active)): void {
    this.draft = text;
    this.#focusWanted = true;
  }

  commit(): void {
    if (this.draft === null) return;
    const text = this.draft.trim();
    this.draft = null;
    if (text !== entryAt(this.grid, this.active)) this.change(withEntry(this.grid, this.active, text));
  }

  /** What reads files comes with the first one; the page around knows from where. */
  async loadFiles(): Promise<FilesModule> {
    const page = this.closest<HTMLElement & { library(name: 'files'): Promise<object> }>('hour-page')!;
    this.files = (await page.library('files')) as FilesModule;
    return this.files;
  }

  readonly onPaste = (event: ClipboardEvent): void => {
    const file = event.clipboardData?.files[0];
    const text = event.clipboardData?.getData('text/plain') ?? '';
    const oneEntry = !/[\t\r\n]/.test(text.trim());
    if (file === undefined && (text === '' || (this.draft !== null && oneEntry))) return;
    event.preventDefault();
    this.draft = null;
    if (file) void takeFile(this, file);
    else if (bringsHeadings(text)) void takeText(this, text);
    else this.change(withBlock(this.grid, this.active, readBlock(text)), 'Pasted');
    this.#focusWanted = true;
  };

  readonly onCopy = (event: ClipboardEvent): void => {
    if (this.draft !== null) return;
    event.preventDefault();
    event.clipboardData?.setData('text/plain', entryAt(this.grid, this.active));
  };

  readonly onKey = (event: KeyboardEvent): void => {
    const editing = this.draft !== null;
    const action = editing ? editingKey(event, this.active.row) : movingKey(event);
    const leaving = this.#leaving;
    this.#leaving = action?.do === 'leave';
    if (action === null || (action.do === 'next' && leaving)) return;
    if (this.#act(action)) event.preventDefault();
  };

  /** Whether the key was used up. */
  #act(action: KeyAction): boolean {
    switch (action.do) {
      case 'move':
        this.goTo({ row: this.active.row + action.rows, column: this.active.column + action.columns });
        return true;
      case 'next':
        return this.#goOn(action.step);
      case 'edit':
        this.edit(action.text);
        return true;
      case 'clear':
        this.change(withEntry(this.grid, this.active, ''));
        return true;
      case 'leave':
        if (this.draft !== null) this.#focusWanted = true;
        this.draft = null;
        return false;
      case 'undo':
        this.undo();
        return true;
      case 'redo':
        this.redo();
        return true;
    }
  }

  #goOn(step: 1 | -1): boolean {
    this.commit();
    const spot = following(this.grid, this.active, step);
    if (spot) this.goTo(spot);
    return spot !== null;
  }

  readonly onDrag = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes('Files')) return;
    event.preventDefault();
    this.dropping = event.type === 'dragover';
  };

  readonly onDrop = (event: DragEvent): void => {
    event.preventDefault();
    this.dropping = false;
    void takeFile(this, event.dataTransfer?.files[0]);
  };

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    this.#moves.see(this.step);
    const nearest = within(this.grid, this.active);
    if (nearest.row !== this.active.row || nearest.column !== this.active.column) this.active = nearest;
  }

  protected override render() {
    const marks = this.marks;
    // What may be done about it comes with what reads files.
    if (!this.files && this.control.rows && columnProblem(marks)) void this.loadFiles();
    return html`<div class="control grid ${this.dropping ? 'dropping' : ''}" role="group"
      aria-labelledby=${this.fieldId} aria-describedby=${aboutId(this.fieldId)}
      @dragover=${this.onDrag} @dragleave=${this.onDrag} @drop=${this.onDrop}>
      <div class="grid-title"><span id=${this.fieldId}>${plain(this.control.label)}</span>${aboutButton(this.fieldId, this.control)}</div>
      ${this.control.help ? html`<p class="help">${plain(this.control.help)}</p>` : nothing}
      ${gridTable(this, marks)}
      ${gridTools(this, marks)}
      ${broughtFile(this)}
    </div>`;
  }

  protected override updated(changed: PropertyValues): void {
    super.updated(changed);
    if (!this.#focusWanted) return;
    this.#focusWanted = false;
    const input = this.querySelector<HTMLInputElement>('input.entry-editor');
    const target = input ?? this.querySelector<HTMLElement>('[data-active]');
    target?.focus({ preventScroll: false });
  }
}

customElements.define('hour-grid', HourGrid);
