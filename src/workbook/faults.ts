import { isNotYet } from '../base/inputError.ts';
import type { CellProblem } from './engineTypes.ts';
import { type CompiledCell, cellInStack, placeInStack } from './evaluate.ts';
import { shortName } from './names.ts';
import { looksLike, nearestFirst } from './nearest.ts';
import type { CellRecord } from './record.ts';

/** Names that could have been meant, and where they come from. */
export interface Offers {
  cells: ReadonlyMap<string, CellRecord>;
  libraries: ReadonlyMap<string, object>;
}

/** What was thrown while a cell ran, as a problem with its place in the cell's text. */
export function faultProblem(
  fault: unknown,
  record: CellRecord,
  compiled: CompiledCell | null,
  offers: Offers,
): CellProblem {
  if (isNotYet(fault)) return { message: messageOf(fault), hint: '', line: null, column: null, notYet: true };
  const place = compiled && placeInStack(fault, compiled);
  return {
    message: messageOf(fault),
    hint: hintFor(fault, record, offers),
    line: place?.line ?? null,
    column: place?.column ?? null,
  };
}

/** The sentence of an error; something readable for whatever else a cell may throw. */
export function messageOf(fault: unknown): string {
  try {
    if (fault instanceof Error) return fault.message || fault.name;
    return `The cell threw ${String(fault)}.`;
  } catch {
    return 'The cell threw something that cannot be shown.';
  }
}

function hintFor(fault: unknown, record: CellRecord, offers: Offers): string {
  if (!(fault instanceof Error) || fault.name === 'InputError') return elsewhere(fault, record);
  const message = messageOf(fault);
  const unknown = /^(?:Can't find variable: )?([\w$]+)(?: is not defined)?$/.exec(message);
  if (fault instanceof ReferenceError && unknown) return whereIs(unknown[1]!, record, offers);
  const early = /^Cannot access '([\w$]+)' before initialization/.exec(message);
  if (early) return `Move the declaration of ${early[1]} above this line.`;
  if (message.startsWith('Assignment to constant variable')) return 'Declare it with let to change it.';
  if (/which has only a getter|not extensible/.test(message)) {
    return 'What is imported cannot be changed here: a control is moved by the reader, other values are for copying.';
  }
  const missing = /^Cannot read properties of (undefined|null) \(reading '(.+)'\)/.exec(message);
  if (missing) return `What stands before .${missing[2]} is ${missing[1]} here.`;
  return elsewhere(fault, record);
}

function elsewhere(fault: unknown, record: CellRecord): string {
  const name = cellInStack(fault);
  return name && name !== record.name ? `It happened in ${shortName(name)}, which this cell called.` : '';
}

/** Where a name that is not defined may be had: another cell, a library, or a name that is spelled like it. */
function whereIs(name: string, record: CellRecord, { cells, libraries }: Offers): string {
  const exact = exportsBy(record, cells).find(([, exported]) => exported.includes(name));
  if (exact) return importLine(name, `./${exact[0]}`);
  const library = [...libraries].find(([, values]) => name in values);
  if (library) return importLine(name, library[0]);
  const own = [
    ...record.parsed.declared,
    ...record.parsed.imports.flatMap((i) => i.names.map((n) => n.local)),
  ];
  const others = exportsBy(record, cells).flatMap(([, exported]) => exported);
  const [nearest] = nearestFirst(name, [...own, ...others]);
  if (nearest === undefined || !looksLike(name, nearest)) return '';
  if (own.includes(nearest)) return `Did you mean ${nearest}?`;
  const from = exportsBy(record, cells).find(([, exported]) => exported.includes(nearest))!;
  return `Did you mean ${nearest}? ${importLine(nearest, `./${from[0]}`)}`;
}

const importLine = (name: string, from: string) => `Write import { ${name} } from '${from}';`;

const exportsBy = (record: CellRecord, cells: ReadonlyMap<string, CellRecord>): [string, string[]][] =>
  [...cells.values()]
    .filter((cell) => cell !== record)
    .map((cell) => [cell.name, cell.exports.filter((name) => name !== 'default')]);
