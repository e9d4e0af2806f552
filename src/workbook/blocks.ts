import type { CellList } from './cellList.ts';
import type { CellProblem } from './engineTypes.ts';
import type { Libraries } from './libraries.ts';
import { isCellPath, nameInPath, shortName } from './names.ts';
import { listed, looksLike, nearestFirst } from './nearest.ts';
import type { Import } from './parsedCell.ts';
import { type Block, type CellRecord, troubleOf } from './record.ts';
import { problem } from './syntax.ts';

/** What a cell's imports are looked up in. */
interface Surroundings {
  cells: ReadonlyMap<string, CellRecord>;
  circles: ReadonlyMap<string, readonly string[]>;
  libraries: Libraries;
}

type At = (message: string, hint: string, offset: number) => CellProblem;

/**
 * Why a cell cannot run, once everything it reads is settled; null when it can. Faults in its own text come first:
 * they stay whatever the others do.
 */
export function blockOf(record: CellRecord, list: CellList, libraries: Libraries): Block | null {
  const around: Surroundings = { cells: list.byName, circles: list.circles, libraries };
  const at: At = (message, hint, offset) => problem(message, hint, record.text, offset);
  const { imports } = record.parsed;
  const failed =
    record.rewritten.problem ??
    first(imports, (i) => unknownSource(i, record, around, at)) ??
    circleProblem(record, around, at) ??
    first(imports, (i) => unknownLibraryName(i, around, at));
  if (failed) return { phase: 'failed', problem: failed };
  const waiting = first(imports, (i) => upstreamProblem(i, record, around, at));
  if (waiting) return { phase: 'waiting', problem: waiting };
  const missing = first(imports, (i) => missingExport(i, around, at));
  return missing && { phase: 'failed', problem: missing };
}

function first<T>(items: readonly T[], find: (item: T) => CellProblem | null): CellProblem | null {
  for (const item of items) {
    const found = find(item);
    if (found) return found;
  }
  return null;
}

function unknownSource(
  { from, offset }: Import,
  record: CellRecord,
  around: Surroundings,
  at: At,
): CellProblem | null {
  if (isCellPath(from) || around.libraries.names.includes(from)) return null;
  const cells = [...around.cells.keys()].filter((n) => n !== record.name).map((n) => `./${n}`);
  const [nearest] = nearestFirst(from, [...cells, ...around.libraries.names]);
  const meant = nearest && looksLike(bareName(from), bareName(nearest)) ? `Did you mean '${nearest}'? ` : '';
  const hint = `${meant}Cells are imported as './name.ts'; libraries: ${listed(from, around.libraries.names)}.`;
  return at(`There is nothing to import from '${from}'.`, hint, offset);
}

/** The path without what is most often wrong in it: folder and ending. */
const bareName = (path: string) => path.replace(/^[./]+|\.[cm]?[jt]s$/g, '');

function circleProblem(record: CellRecord, around: Surroundings, at: At): CellProblem | null {
  const path = around.circles.get(record.name);
  if (!path) return null;
  const next = path[path.indexOf(record.name) + 1]!;
  const offset = record.parsed.imports.find((i) => i.from === `./${next}`)!.offset;
  const message = `These cells import each other in a circle: ${path.map(shortName).join(' → ')}.`;
  return at(message, 'Take one of these imports away.', offset);
}

function unknownLibraryName(
  { from, names, offset }: Import,
  around: Surroundings,
  at: At,
): CellProblem | null {
  if (isCellPath(from)) return null;
  const library = around.libraries.loaded.get(from) ?? {};
  const wrong = names.find(({ name }) => name !== '*' && !(name in library));
  const reason = around.libraries.missing.get(from);
  const wantsAll = names.every(({ name }) => name === '*');
  if (reason !== undefined && (wrong || wantsAll)) {
    return at(`The library ${from} could not be loaded: ${reason}`, '', offset);
  }
  if (!wrong) return null;
  return at(
    `'${from}' does not export '${wrong.name}'.`,
    offered(wrong.name, Object.keys(library)),
    wrong.offset,
  );
}

function upstreamProblem(
  { from, offset }: Import,
  record: CellRecord,
  around: Surroundings,
  at: At,
): CellProblem | null {
  if (!isCellPath(from)) return null;
  const name = nameInPath(from);
  const upstream = around.cells.get(name);
  if (!upstream) {
    const others = [...around.cells.keys()].filter((n) => n !== record.name);
    return at(
      `This cell waits for ${shortName(name)}, which does not exist.`,
      `There are ${listed(shortName(name), others.map(shortName))}.`,
      offset,
    );
  }
  if (!upstream.block && upstream.ended === 'done') return null;
  const trouble = troubleOf(upstream);
  if (trouble?.notYet) return trouble;
  return at(`This cell waits for ${shortName(name)}.`, rootOf(upstream, around.cells), offset);
}

/** Which cell has to be mended, followed up through those that only wait. */
function rootOf(upstream: CellRecord, cells: ReadonlyMap<string, CellRecord>): string {
  if (upstream.block?.phase !== 'waiting') {
    return `${shortName(upstream.name)} failed: ${troubleOf(upstream)?.message ?? ''}`;
  }
  const missing = upstream.uses.find((n) => !cells.has(n));
  if (missing) return `${shortName(upstream.name)} imports ${shortName(missing)}, which does not exist.`;
  const next = upstream.uses.map((n) => cells.get(n)!).find((c) => c.block || c.ended !== 'done');
  return next ? rootOf(next, cells) : '';
}

function missingExport({ from, names }: Import, around: Surroundings, at: At): CellProblem | null {
  if (!isCellPath(from)) return null;
  const upstream = around.cells.get(nameInPath(from))!;
  const wrong = names.find((n) => n.name !== '*' && !upstream.exports.includes(n.name));
  if (!wrong) return null;
  if (upstream.parsed.types.includes(wrong.name)) {
    const hint = `Write import type { ${wrong.name} } from '${from}';`;
    return at(`'${wrong.name}' of '${from}' is a type and has no value.`, hint, wrong.offset);
  }
  return at(
    `'${from}' does not export '${wrong.name}'.`,
    offered(wrong.name, upstream.exports),
    wrong.offset,
  );
}

const offered = (name: string, exported: readonly string[]) => `It exports ${listed(name, exported)}.`;
