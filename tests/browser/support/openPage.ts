import * as Plot from '@observablehq/plot';
import { afterEach, expect } from 'vitest';
import { page as browser, userEvent } from 'vitest/browser';
import type { HourCell } from '../../../src/page/cell/cell.ts';
import * as editor from '../../../src/page/editor/index.ts';
import type { WorkbookPage } from '../../../src/page/workbookPage.ts';
import * as files from '../../../src/toolkit/files.ts';
import type { CellText } from '../../../src/workbook/document.ts';
import { FakeEngine, type Interpret } from './fakeEngine.ts';
import '../../../src/look/tokens.css';
import '../../../src/look/results.css';
import '../../../src/look/page.css';
import '../../../src/page/workbookPage.ts';
import { soon } from './soon.ts';

export interface OpenPage {
  page: WorkbookPage;
  engine: FakeEngine;
  cell(name: string): HourCell;
  /** The first element that fits, in a cell; fails when there is none. */
  find<E extends HTMLElement = HTMLElement>(cell: string, selector: string): E;
  /** Text of what a cell shows. */
  shown(cell: string): string;
}

afterEach(() => document.body.replaceChildren());

/** A page of these cells on the fake engine, run once. */
export async function openPage(cells: readonly CellText[], interpret: Interpret): Promise<OpenPage> {
  await browser.viewport(1280, 900);
  const engine = new FakeEngine(cells, interpret);
  const page = document.createElement('hour-page') as WorkbookPage;
  engine.onState = (state) => page.stateChanged(state);
  engine.onCells = (all) => page.cellsChanged(all);
  const libraries: Record<string, object> = { plot: Plot, editor, files };
  page.library = async (name) => libraries[name]!;
  page.toolkitNames = ['fitCurve', 'fitLine'];
  page.shipped = cells;
  page.engine = engine;
  document.body.append(page);
  await engine.run();
  // Elements within elements take a few microtasks to be drawn.
  await new Promise(requestAnimationFrame);
  const cell = (name: string) => page.querySelector<HourCell>(`[data-cell="${name}"]`)!;
  const find = <E extends HTMLElement>(name: string, selector: string): E => {
    const found = cell(name).querySelector<E>(selector);
    if (!found) throw new Error(`${name} has no ${selector}`);
    return found;
  };
  return { page, engine, cell, find, shown: (name) => find(name, '.shown').textContent!.trim() };
}

/** Waits until the cell's editor is there and puts the focus into it. */
export async function focusEditor({ find }: OpenPage, cell: string): Promise<HTMLElement> {
  const content = await soon(() => find(cell, '.cm-content'));
  content.focus();
  await soon(() => expect(document.activeElement).toBe(content));
  return content;
}

/** Selects everything in the focused editor and types over it. */
export async function retype(text: string): Promise<void> {
  await userEvent.keyboard('{Control>}a{/Control}');
  await userEvent.keyboard(text.replaceAll('{', '{{').replaceAll('[', '[['));
}
