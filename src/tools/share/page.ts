import * as Plot from '@observablehq/plot';
import { InputError } from '../../base/inputError.ts';
import type { Sport } from '../../base/units.ts';
import { readAnyFile } from '../../data-in/readAnyFile.ts';
import { readStageTable, readStepTest } from '../../data-in/stages.ts';
import { readSharePage } from '../../host/share/embedded.ts';
import { makeSharePage } from '../../host/share/saveShare.ts';
import { SHIPPED, shippedByName, startFrom } from '../../host/shipped.ts';
import { readDocument } from '../../host/workbookDocument.ts';
import { snapshotsOf } from '../../page/results/snapshot.ts';
import type { Control } from '../../view/controls.ts';
import type { WorkbookDocument } from '../../workbook/document.ts';
import type { Engine } from '../../workbook/engineTypes.ts';
import { nodeEngine } from './nodeEngine.ts';

/** What the share command was asked for. */
export interface ShareOptions {
  sport?: Sport;
  /** kg. */
  bodyMass?: number;
  /** As in the share dialog: a line of words leaves out who the athlete is; null keeps everything. */
  without: string | null;
  /** Run cells that are not as shipped. */
  trusted: boolean;
}

/** A share page as text. */
export interface MadeShare {
  html: string;
  /** What had to be decided while the file was read, and a line for each cell that failed. */
  notes: string[];
}

/** Where a control belongs, as the results ask for it. */
const ownerIn = (engine: Engine) => (control: Control) => {
  const owner = engine.ownerOf(control);
  const state = owner && engine.states().find(({ name }) => name === owner.cell);
  const entry = state?.controls.find(({ name }) => name === owner?.name);
  return owner && entry ? { cell: owner.cell, entry } : null;
};

/** The empty workbook, with a table of stages to be put into it. */
async function fromTable(text: string, file: string, { sport, bodyMass }: ShareOptions) {
  const table = readStageTable(text, file);
  const test = readStepTest(table, { file, sport, bodyMass });
  const document = await startFrom(shippedByName('own')!);
  const { headings, rows } = table;
  const title = file.replace(/^.*[/\\]/, '').replace(/\.\w+$/, '');
  const moves: [string, string, unknown][] = [
    ['10-athlete.ts', 'sport', test.sport],
    ['10-athlete.ts', 'bodyMass', test.bodyMass],
    ['20-stages.ts', 'stages', { headings, rows }],
  ];
  return { document: { ...document, title }, moves, notes: test.notes };
}

/** Text of a cell that nobody but Hourline wrote. */
async function shippedTexts(): Promise<Set<string>> {
  const cells = await Promise.all(SHIPPED.map((shipped) => shipped.cells()));
  return new Set(cells.flat().map(({ text }) => text));
}

/**
 * A cell is a program. In the browser it runs in a frame without network or storage; here it would run with all that the
 * user may do. So only shipped cells run, unless the user vouches for the others.
 */
async function expectShippedCells({ cells }: WorkbookDocument, file: string): Promise<void> {
  const known = await shippedTexts();
  const own = cells.filter(({ text }) => !known.has(text));
  if (own.length > 0)
    throw new InputError(
      `${file}: ${own.map(({ name }) => name).join(', ')} ${own.length === 1 ? 'is' : 'are'} not as shipped, and code of others runs in the browser alone; expected a table, or --trusted for code that you have read`,
      { file },
    );
}

async function workbookIn(text: string, file: string): Promise<WorkbookDocument | null> {
  if (/^\s*<!doctype html/i.test(text)) return (await readSharePage(text, file)).document;
  if (!/^\s*\{/.test(text)) return null;
  try {
    return readDocument(JSON.parse(text), file);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`${file}: damaged JSON; expected a workbook as Hourline saves it`, { file });
  }
}

async function open(bytes: Uint8Array, file: string, options: ShareOptions) {
  const read = await readAnyFile(bytes, file);
  if (read.kind === 'recording')
    throw new InputError(
      `${file}: a recording; its lactates are entered in the workbook, so share it from there`,
      { file },
    );
  const document = await workbookIn(read.text, file);
  if (!document) {
    const started = await fromTable(read.text, file, options);
    return { ...started, notes: [...read.notes, ...started.notes] };
  }
  if (!options.trusted) await expectShippedCells(document, file);
  return { document, moves: [], notes: [] };
}

/**
 * The share page of a file: a table of stages in the empty workbook, or a saved workbook or share page run anew. Computations
 * that a page makes at leisure are not waited for; their places show what stands there before. Needs a document to draw in.
 *
 * Throws    InputError for a file that cannot be used, or a workbook with code that is not shipped
 */
export async function shareOf(bytes: Uint8Array, file: string, options: ShareOptions): Promise<MadeShare> {
  const { document, moves, notes } = await open(bytes, file, options);
  const engine = nodeEngine();
  engine.load(document.cells, document.settings);
  await engine.run();
  for (const [cell, control, value] of moves) await engine.setControl(cell, control, value);
  await engine.run();
  const states = engine.states();
  const shown = snapshotsOf(states, Plot, ownerIn(engine));
  const { html } = await makeSharePage({ ...document, settings: engine.settings() }, shown, options.without);
  const failed = states.flatMap(({ name, problem }) =>
    problem && !problem.notYet ? [`${name} failed: ${problem.message}`] : [],
  );
  return { html, notes: [...notes, ...failed] };
}
