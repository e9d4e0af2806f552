import type { CellText } from '../workbook/document.ts';
import { HourCell } from './cell/cell.ts';

/** The elements of the cells that are on the page, found anew each time: Lit puts them there and takes them away. */
export class CellElements {
  readonly #page: Element;

  constructor(page: Element) {
    this.#page = page;
  }

  get all(): HourCell[] {
    const children = this.#page.querySelector('.cells')?.children ?? [];
    return [...children].filter((child) => child instanceof HourCell);
  }

  of(cell: string): HourCell | undefined {
    return this.all.find((one) => one.state.name === cell);
  }

  /** Names of the cells whose results are known to be visible, or nearly. */
  inSight(): string[] {
    return this.all.filter((cell) => cell.inSight).map((cell) => cell.state.name);
  }

  /** Sends what was typed but has not run yet. */
  flush(): void {
    for (const cell of this.all) cell.flush();
  }

  /** The cells with what was typed but has not run yet. */
  withTyped(cells: readonly CellText[]): CellText[] {
    const typed = new Map(this.all.map((cell) => [cell.state.name, cell.typed]));
    return cells.map(({ name, text }) => ({ name, text: typed.get(name) ?? text }));
  }

  /** Where in the window a cell begins, px; 0 for no cell. */
  topOf(cell: string | undefined): number {
    return cell ? this.of(cell)!.getBoundingClientRect().top : 0;
  }
}
