import { tsPlugin } from '@sveltejs/acorn-typescript';
import { Parser } from 'acorn';
import { isErased } from './blankTypes.ts';
import type { CellProblem } from './engineTypes.ts';
import { declaredNames, findImportWrite } from './importWrites.ts';
import { type ImportedName, type ModuleReference, type ParsedCell, valueExports } from './parsedCell.ts';
import { childrenOf, nameOf, problem, type SyntaxNode, statementsOf } from './syntax.ts';

/** A parsed cell with its syntax tree, which only the rewriting needs. */
export interface ParsedText extends ParsedCell {
  /** Null when the text cannot be read at all. */
  program: SyntaxNode | null;
}

const TypeScriptParser = Parser.extend(tsPlugin());

/** Reads a cell's text: what it imports and exports, or why it cannot be read. Never throws. */
export function parseCell(text: string): ParsedText {
  const cell: ParsedText = {
    program: null,
    readable: false,
    imports: [],
    exports: [],
    types: [],
    declared: [],
    references: [],
    helper: unusedName(text),
    problem: null,
    warnings: [],
  };
  try {
    const options = {
      ecmaVersion: 'latest',
      sourceType: 'module',
      locations: true,
      allowHashBang: false,
    } as const;
    cell.program = TypeScriptParser.parse(text, options) as unknown as SyntaxNode;
  } catch (fault) {
    cell.problem = syntaxProblem(text, fault);
    return cell;
  }
  cell.readable = true;
  for (const statement of statementsOf(cell.program)) readStatement(cell, statement, text);
  cell.references = moduleReferences(cell.program);
  cell.problem ??= duplicateExport(cell, text) ?? importWriteProblem(cell, text);
  return cell;
}

function unusedName(text: string): string {
  let number = 0;
  while (text.includes(`$${number}`)) number += 1;
  return `$${number}`;
}

function syntaxProblem(text: string, fault: unknown): CellProblem {
  const { message, pos } = fault as { message?: string; pos?: number };
  if (!(fault instanceof SyntaxError) || pos === undefined)
    return problem('This text cannot be read as a cell.');
  const sentence = message!.replace(/\.? \(\d+:\d+\)$/, '');
  const hint = unclosedHint(text, pos);
  if (sentence !== 'Unexpected token') return problem(`${sentence}.`, hint, text, pos);
  const token = /[\w$]+|\S/y;
  token.lastIndex = pos;
  const found = token.exec(text)?.[0];
  if (!found) return problem('The text ends too soon.', 'A bracket or quote may still be open.', text, pos);
  return problem(`'${found}' was not expected here.`, hint, text, pos);
}

/**
 * A backtick that nobody closed is closed by the next one, which was meant to open another text: the fault then shows right
 * after that one, lines away. A hint where it begins; '' when the text before the fault does not look like that.
 */
function unclosedHint(text: string, pos: number): string {
  const ticks = [...text.slice(0, pos).matchAll(/(?<!\\)`/g)].map(({ index }) => index);
  const [open, close] = ticks.slice(-2);
  if (open === undefined || close === undefined || ticks.length % 2 === 1) return '';
  const isFar = text
    .slice(close + 1, pos)
    .trim()
    .includes('\n');
  if (isFar || !text.slice(open, close).includes('\n')) return '';
  const line = text.slice(0, open).split('\n').length;
  return `The text in backticks before this began in line ${line}: its own closing backtick may be missing.`;
}

function readStatement(cell: ParsedCell, statement: SyntaxNode, text: string): void {
  switch (statement.type) {
    case 'ImportDeclaration':
      readImport(cell, statement);
      break;
    case 'ExportNamedDeclaration':
      if (statement.source) readReExport(cell, statement);
      else readNamedExport(cell, statement, text);
      break;
    case 'ExportDefaultDeclaration':
      readDefaultExport(cell, statement);
      break;
    case 'ExportAllDeclaration':
      readExportAll(cell, statement, text);
      break;
    default:
      cell.declared.push(...declaredNames(statement));
      if (isTypeDeclaration(statement)) cell.types.push(statement.id!.name!);
  }
}

const isTypeDeclaration = (node: SyntaxNode) =>
  node.type === 'TSInterfaceDeclaration' || node.type === 'TSTypeAliasDeclaration';

function readImport(cell: ParsedCell, statement: SyntaxNode): void {
  if (statement.importKind === 'type') return;
  const values = statement.specifiers!.filter((s) => s.importKind !== 'type');
  if (values.length === 0 && statement.specifiers!.length > 0) return;
  const names = values.map((s) => ({ name: importedName(s), local: s.local!.name!, offset: s.start }));
  cell.imports.push({ from: String(statement.source!.value), names, offset: statement.start });
}

function importedName(specifier: SyntaxNode): string {
  if (specifier.type === 'ImportDefaultSpecifier') return 'default';
  return specifier.type === 'ImportNamespaceSpecifier' ? '*' : nameOf(specifier.imported!);
}

/** `export { x } from './a.ts'` becomes an import under a hidden name and an export of it. */
function readReExport(cell: ParsedCell, statement: SyntaxNode): void {
  if (statement.exportKind === 'type') return;
  const names: ImportedName[] = [];
  for (const specifier of statement.specifiers!.filter((s) => s.exportKind !== 'type')) {
    const local = `${cell.helper}r${cell.exports.length}`;
    names.push({ name: nameOf(specifier.local!), local, offset: specifier.start });
    cell.exports.push({ name: nameOf(specifier.exported!), local, offset: specifier.start });
  }
  cell.imports.push({ from: String(statement.source!.value), names, offset: statement.start });
}

function readExportAll(cell: ParsedCell, statement: SyntaxNode, text: string): void {
  const from = String(statement.source!.value);
  if (!statement.exported) {
    cell.problem ??= problem(
      'export * cannot be used in a cell.',
      `Name what is passed on: export { name } from '${from}';`,
      text,
      statement.start,
    );
    return;
  }
  const local = `${cell.helper}r${cell.exports.length}`;
  cell.imports.push({
    from,
    names: [{ name: '*', local, offset: statement.start }],
    offset: statement.start,
  });
  cell.exports.push({ name: nameOf(statement.exported), local, offset: statement.start });
}

function readNamedExport(cell: ParsedCell, statement: SyntaxNode, text: string): void {
  if (statement.declaration) readExportedDeclaration(cell, statement.declaration, text);
  if (statement.exportKind === 'type') return;
  for (const { exportKind, exported, local, start } of statement.specifiers!) {
    if (exportKind !== 'type')
      cell.exports.push({ name: nameOf(exported!), local: nameOf(local!), offset: start });
  }
}

function readExportedDeclaration(cell: ParsedCell, declaration: SyntaxNode, text: string): void {
  if (isTypeDeclaration(declaration)) cell.types.push(declaration.id!.name!);
  if (declaration.declare) return;
  const names = declaredNames(declaration);
  cell.declared.push(...names);
  cell.exports.push(...names.map((name) => ({ name, local: name, offset: declaration.start })));
  if (declaration.kind !== 'let' && declaration.kind !== 'var') return;
  cell.warnings.push(
    problem(
      `Readers of ${names.join(', ')} get the value it has when this cell has finished.`,
      `Use const, so that no later ${declaration.kind} assignment is missed.`,
      text,
      declaration.start,
    ),
  );
}

function readDefaultExport(cell: ParsedCell, statement: SyntaxNode): void {
  const declaration = statement.declaration!;
  if (isErased(declaration)) return;
  const names = declaredNames(declaration);
  cell.declared.push(...names);
  cell.exports.push({ name: 'default', local: names[0] ?? `${cell.helper}d`, offset: statement.start });
}

function moduleReferences(node: SyntaxNode): ModuleReference[] {
  const below = childrenOf(node).flatMap(moduleReferences);
  const source = node.type === 'TSImportType' ? quotedIn(node.argument) : node.source;
  if (source?.type !== 'Literal' || typeof source.value !== 'string') return below;
  return [{ from: source.value, start: source.start, end: source.end }, ...below];
}

const quotedIn = (node: SyntaxNode | null | undefined): SyntaxNode | undefined =>
  node?.type === 'Literal' ? node : node ? childrenOf(node).find((c) => c.type === 'Literal') : undefined;

/** The TypeScript parser leaves this to the type checker. */
function duplicateExport(cell: ParsedCell, text: string): CellProblem | null {
  const exported = valueExports(cell);
  const second = exported.find((e, i) => exported.findIndex((other) => other.name === e.name) < i);
  if (!second) return null;
  const what = second.name === 'default' ? 'A second export default' : `'${second.name}' is exported twice`;
  return problem(`${what}: a cell exports each name once.`, 'Take one of them away.', text, second.offset);
}

function importWriteProblem(cell: ParsedText, text: string): CellProblem | null {
  const imported = new Set(cell.imports.flatMap((i) => i.names.map((n) => n.local)));
  const written = findImportWrite(cell.program!, imported);
  if (!written) return null;
  const name = written.name!;
  return problem(
    `'${name}' is imported and cannot be assigned to.`,
    `Make a variable of your own: let my${name[0]!.toUpperCase()}${name.slice(1)} = ${name};`,
    text,
    written.start,
  );
}
