import { blankTypes, isErased } from './blankTypes.ts';
import type { CellProblem } from './engineTypes.ts';
import { Overlay } from './overlay.ts';
import type { ParsedText } from './parse.ts';
import { helperNames, type Rewritten } from './parsedCell.ts';
import { childrenOf, isFunction, problem, type SyntaxNode, skipTrivia, statementsOf } from './syntax.ts';

/** Of `import` and of `export`. */
const KEYWORD_LENGTH = 6;

/** Turns a parsed cell into plain JavaScript: types blanked, imports and exports taken out. */
export function rewriteCell(text: string, cell: ParsedText): Rewritten {
  const overlay = new Overlay(text);
  const refused = blankTypes(cell.program!, overlay);
  if (refused) return { body: '', asynchronous: false, problem: refused };
  const names = helperNames(cell.helper);
  for (const statement of statementsOf(cell.program!)) rewriteStatement(statement, overlay, names.shown);
  const deep = new DeepRewriter(overlay, names);
  deep.visit(cell.program!, false);
  return { body: overlay.toString(), asynchronous: deep.asynchronous, problem: deep.problem };
}

function rewriteStatement(statement: SyntaxNode, overlay: Overlay, shown: string): void {
  const { type, start, end, declaration } = statement;
  if (type === 'ImportDeclaration' || type === 'ExportAllDeclaration') overlay.erase(start, end);
  if (type === 'ExportNamedDeclaration') {
    if (!declaration) overlay.erase(start, end);
    else if (!isErased(declaration)) overlay.blank(start, start + KEYWORD_LENGTH);
  }
  if (type === 'ExportDefaultDeclaration') rewriteDefault(statement, overlay, shown);
}

/**
 * `export default E` becomes an assignment, closed by a semicolon: else `export default function () {}` and a
 * bracket on the next line would become a call.
 */
function rewriteDefault(statement: SyntaxNode, overlay: Overlay, shown: string): void {
  const { start, end } = statement;
  const declaration = statement.declaration!;
  if (isErased(declaration)) return;
  const keyword = skipTrivia(overlay.original, start + KEYWORD_LENGTH);
  overlay.blank(start, start + KEYWORD_LENGTH);
  overlay.blank(keyword, keyword + 'default'.length);
  if (/Declaration$/.test(declaration.type) && declaration.id) return;
  overlay.put(start, `${shown}=`);
  if (overlay.original[end - 1] !== ';') overlay.endStatement(end);
}

/** What may stand anywhere in the text: import(), import.meta and top-level await. */
class DeepRewriter {
  asynchronous = false;
  problem: CellProblem | null = null;
  readonly #overlay: Overlay;
  readonly #names: ReturnType<typeof helperNames>;

  constructor(overlay: Overlay, names: ReturnType<typeof helperNames>) {
    this.#overlay = overlay;
    this.#names = names;
  }

  visit(node: SyntaxNode, insideFunction: boolean): void {
    if (isAwait(node) && !insideFunction) this.asynchronous = true;
    if (node.type === 'MetaProperty' && node.meta!.name !== 'new') {
      this.#replace(node.start, node.end, this.#names.meta);
    }
    if (node.type === 'ImportExpression') this.#dynamicImport(node);
    if (node.type === 'BinaryExpression' && node.operator === '<') this.#htmlComment(node);
    const inside = insideFunction || isFunction(node);
    for (const child of childrenOf(node)) this.visit(child, inside);
  }

  #replace(start: number, end: number, name: string): void {
    this.#overlay.blank(start, end);
    this.#overlay.put(start, name);
  }

  #dynamicImport(node: SyntaxNode): void {
    const from = node.source!.value;
    if (typeof from === 'string' && from.startsWith('.')) {
      this.problem ??= problem(
        'Another cell cannot be imported in the middle of the code.',
        `Write it at the top, so that this cell follows it: import { name } from '${from}';`,
        this.#overlay.original,
        node.start,
      );
    }
    this.#replace(node.start, node.start + KEYWORD_LENGTH, this.#names.load);
  }

  /** A module may say `a<!--b`; the script that a cell is evaluated as would take it for a comment. */
  #htmlComment(node: SyntaxNode): void {
    const at = skipTrivia(this.#overlay.original, node.left!.end);
    if (!this.#overlay.original.startsWith('<!--', at)) return;
    this.problem ??= problem('<!-- cannot be used in a cell.', 'Write < !--', this.#overlay.original, at);
  }
}

const isAwait = (node: SyntaxNode) =>
  node.type === 'AwaitExpression' ||
  (node.type === 'ForOfStatement' && node.await === true) ||
  (node.type === 'VariableDeclaration' && node.kind === 'await using');
