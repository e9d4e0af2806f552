import type { CellText } from '../../../src/workbook/document.ts';
import { ELEMENTS } from './elements.ts';
import { LEAVING_FRAME, WINDOWS } from './leaving.ts';
import { MARKUP, MARKUP_DISRUPTIVE } from './markup.ts';
import { NETWORK } from './network.ts';

/** What a hostile cell may try, by name; `there` is an address of a server that counts whatever arrives. */
export type Attacks = Record<string, (there: string) => string>;

const ALL: Attacks = {
  ...NETWORK,
  ...ELEMENTS,
  ...MARKUP,
  ...WINDOWS,
  ...MARKUP_DISRUPTIVE,
  ...LEAVING_FRAME,
};

/** These break the page for the attacks after them, so each gets a workbook of its own. */
export const DISRUPTIVE = Object.keys(MARKUP_DISRUPTIVE);
/** These lead the frame itself away. */
export const LEAVING = Object.keys(LEAVING_FRAME);
/** All others, which can run side by side. */
export const TOGETHER = Object.keys({ ...NETWORK, ...ELEMENTS, ...MARKUP, ...WINDOWS });

export const COUNT = Object.keys(ALL).length;

/** One cell an attack; the address each uses ends in the attack's name. */
export const attackCells = (names: readonly string[], server: string): CellText[] =>
  names.map((name) => ({
    name: `${name}.ts`,
    text: `${ALL[name]!(`${server}/${name}`)}\nexport default 'done';\n`,
  }));
