import type { CellProblem } from './engineTypes.ts';
import type { Overlay } from './overlay.ts';
import { childrenOf, isFunction, problem, type SyntaxNode, skipTrivia, statementsOf } from './syntax.ts';

/** What TypeScript would have to translate, not only to erase; each with what to write instead. */
const REFUSED: Record<string, [message: string, hint: string]> = {
  TSEnumDeclaration: [
    'An enum cannot be used in a cell.',
    "Write an object instead: const Sport = { Cycling: 'cycling' } as const;",
  ],
  TSModuleDeclaration: [
    'A namespace with code cannot be used in a cell.',
    'Put its contents into a cell of their own.',
  ],
  TSParameterProperty: [
    'A parameter property (constructor(public x)) cannot be used in a cell.',
    'Declare the field in the class and assign it in the constructor.',
  ],
  TSTypeAssertion: ['A type in front of a value (<T>value) cannot be used in a cell.', 'Write value as T.'],
  TSImportEqualsDeclaration: [
    'import … = cannot be used in a cell.',
    "Write import { name } from './other.ts';",
  ],
  TSExportAssignment: ['export = cannot be used in a cell.', 'Write export default value;'],
  TSNamespaceExportDeclaration: ['export as namespace cannot be used in a cell.', 'Take the line away.'],
  Decorator: ['Decorators cannot be used in a cell.', 'Call the function on the value instead.'],
};

/** Declarations and class members that are types and nothing else. */
const TYPE_ONLY = [
  'TSInterfaceDeclaration',
  'TSTypeAliasDeclaration',
  'TSDeclareFunction',
  'TSIndexSignature',
];

/** Statements that may end without a semicolon, and class fields likewise. */
const MAY_END_OPEN = [
  'ExpressionStatement',
  'VariableDeclaration',
  'ReturnStatement',
  'ThrowStatement',
  'PropertyDefinition',
  'ExportDefaultDeclaration',
];

const MODIFIER = /\b(?:public|private|protected|readonly|override|abstract|declare)\b/g;

/** True for what leaves nothing behind at run time. */
export function isErased(node: SyntaxNode): boolean {
  if (node.declare || TYPE_ONLY.includes(node.type)) return true;
  if (node.type !== 'TSModuleDeclaration') return false;
  const body = node.body as SyntaxNode | undefined;
  if (!body) return true;
  if (body.type === 'TSModuleDeclaration') return isErased(body);
  return statementsOf(body).every((s) =>
    isErased(s.type === 'ExportNamedDeclaration' ? (s.declaration ?? s) : s),
  );
}

/**
 * Overwrites all erasable TypeScript with spaces, so that what is left is JavaScript with every line and column as
 * before. Imports and exports of names are left to rewrite.ts.
 *
 * Returns what cannot be erased, or null.
 */
export function blankTypes(program: SyntaxNode, overlay: Overlay): CellProblem | null {
  const eraser = new TypeEraser(overlay);
  eraser.visit(program);
  return eraser.refused;
}

class TypeEraser {
  refused: CellProblem | null = null;
  readonly #overlay: Overlay;
  readonly #text: string;
  /** End of the statement around that ends without a semicolon; -1 for none. */
  #openEnd = -1;

  constructor(overlay: Overlay) {
    this.#overlay = overlay;
    this.#text = overlay.original;
  }

  visit(node: SyntaxNode): void {
    if (this.refused) return;
    const outerEnd = this.#openEnd;
    if (MAY_END_OPEN.includes(node.type)) this.#openEnd = this.#text[node.end - 1] === ';' ? -1 : node.end;
    this.#visitKind(node);
    this.#openEnd = outerEnd;
  }

  #visitKind(node: SyntaxNode): void {
    if (isErased(node)) this.#overlay.erase(node.start, node.end);
    else if (REFUSED[node.type]) this.#refuse(node);
    else if (isBareType(node)) this.#blank(node.start, node.end);
    else this.#visitCode(node);
  }

  #visitCode(node: SyntaxNode): void {
    if (isFunction(node)) this.#function(node);
    for (const child of this.#partsToVisit(node)) this.visit(child);
  }

  /** Blanks what belongs to the node itself and returns the children that still have to be looked at. */
  #partsToVisit(node: SyntaxNode): SyntaxNode[] {
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
        return [];
      case 'ExportNamedDeclaration':
      case 'ExportDefaultDeclaration':
        return this.#export(node);
      case 'TSAsExpression':
      case 'TSSatisfiesExpression':
      case 'TSNonNullExpression':
        this.#blank(this.#afterOperand(node), node.end);
        return [node.expression!];
      case 'Identifier':
      case 'ObjectPattern':
        if (node.optional) this.#optionalMark(node);
        return childrenOf(node);
      case 'VariableDeclarator':
        if (node.definite) this.#mark('!', node.id!.start + nameLength(node.id!));
        return childrenOf(node);
      case 'ForStatement':
      case 'ForInStatement':
      case 'ForOfStatement':
        return partsOfLoop(node);
      case 'ClassDeclaration':
      case 'ClassExpression':
        this.#classHead(node);
        return childrenOf(node);
      case 'MethodDefinition':
      case 'PropertyDefinition':
        return this.#member(node);
      default:
        return childrenOf(node);
    }
  }

  /** Where the parentheses around the operand of `as` or `!` end; the operand's node does not include them. */
  #afterOperand(node: SyntaxNode): number {
    let at = skipTrivia(this.#text, node.expression!.end);
    while (this.#text[at] === ')') at = skipTrivia(this.#text, at + 1);
    return at;
  }

  /** What is blanked at the very end of an open statement closes it: `x as T⏎(y)` would else become a call. */
  #blank(start: number, end: number): void {
    this.#overlay.blank(start, end);
    if (end === this.#openEnd) this.#overlay.put(start, ';');
  }

  #refuse(node: SyntaxNode): void {
    const [message, hint] = REFUSED[node.type]!;
    this.refused = problem(message, hint, this.#text, node.start);
  }

  #export(node: SyntaxNode): SyntaxNode[] {
    const declaration = node.declaration;
    if (!declaration) return [];
    if (!isErased(declaration)) return [declaration];
    this.#overlay.erase(node.start, node.end);
    return [];
  }

  #mark(mark: '?' | '!', from: number): void {
    const at = skipTrivia(this.#text, from);
    // The parser also marks the `id` of `id?.(x)` as optional.
    if (this.#text[at] === mark && this.#text[at + 1] !== '.') this.#overlay.blank(at, at + 1);
  }

  #optionalMark(node: SyntaxNode): void {
    const afterPattern = this.#text.lastIndexOf('?', (node.typeAnnotation?.start ?? node.end) - 1);
    this.#mark('?', node.type === 'Identifier' ? node.start + nameLength(node) : afterPattern);
  }

  #function(node: SyntaxNode): void {
    const [first, second] = node.params!;
    if (first?.type === 'Identifier' && first.name === 'this') {
      const comma = skipTrivia(this.#text, first.end);
      const end = this.#text[comma] === ',' ? comma + 1 : first.end;
      this.#overlay.blank(first.start, second?.start ?? end);
    }
    if (node.type === 'ArrowFunctionExpression') this.#arrowParentheses(node);
  }

  /**
   * No line break may stand before `=>`, nor (after `return` or `async`) before the parameters. Where the types
   * that are blanked leave one behind, the parenthesis moves to their other side.
   */
  #arrowParentheses(node: SyntaxNode): void {
    const { typeParameters, returnType, params } = node;
    const start = typeParameters ? typeParameters.end : node.start + (node.async ? 'async'.length : 0);
    const open = skipTrivia(this.#text, start);
    const last = params!.at(-1);
    const afterLast = skipTrivia(this.#text, last ? last.end : open + 1);
    const close = this.#text[afterLast] === ',' ? skipTrivia(this.#text, afterLast + 1) : afterLast;
    this.#checkArrow(returnType?.end ?? close + 1);
    if (typeParameters) {
      this.#overlay.blank(typeParameters.start, typeParameters.end);
      if (this.#overlay.hasLineBreak(typeParameters.start, open)) this.#swap(open, typeParameters.start, '(');
      node.typeParameters = null;
    }
    if (returnType) {
      this.#overlay.blank(returnType.start, returnType.end);
      if (this.#overlay.hasLineBreak(close, returnType.end)) this.#swap(close, returnType.end - 1, ')');
      node.returnType = null;
    }
  }

  /** The parser lets this pass after a return type. */
  #checkArrow(from: number): void {
    const arrow = skipTrivia(this.#text, from);
    if (!this.#overlay.hasLineBreak(from, arrow)) return;
    this.refused = problem(
      'No line break may stand before =>.',
      'Put => at the end of the line.',
      this.#text,
      arrow,
    );
  }

  #swap(from: number, to: number, parenthesis: string): void {
    this.#overlay.blank(from, from + 1);
    this.#overlay.put(to, parenthesis);
  }

  #classHead(node: SyntaxNode): void {
    if (node.abstract) this.#overlay.blank(node.start, node.start + 'abstract'.length);
    if (!node.implements?.length) return;
    const keyword = this.#text.lastIndexOf('implements', node.implements[0]!.start - 1);
    this.#overlay.blank(keyword, node.implements.at(-1)!.end);
  }

  #member(node: SyntaxNode): SyntaxNode[] {
    const body = node.value as SyntaxNode | null;
    if (node.declare || node.abstract || body?.type === 'TSDeclareMethod') {
      this.#overlay.erase(node.start, node.end);
      return [];
    }
    if (node.accessor) {
      const hint = 'Write a field, or get and set.';
      this.refused = problem('accessor fields cannot be used in a cell.', hint, this.#text, node.start);
      return [];
    }
    this.#modifiers(node);
    if (node.optional || node.definite) {
      const afterKey = skipTrivia(this.#text, node.key!.end);
      this.#mark(node.optional ? '?' : '!', node.computed ? afterKey + 1 : afterKey);
    }
    return childrenOf(node);
  }

  /** `private x` becomes `;       x`: without the semicolon a field before it could go on into `*x` or `[x]`. */
  #modifiers(node: SyntaxNode): void {
    const head = this.#text.slice(node.start, node.key!.start);
    for (const word of head.matchAll(MODIFIER)) {
      const at = node.start + word.index;
      this.#overlay.blank(at, at + word[0].length);
      if (word.index === 0) this.#overlay.put(at, ';');
    }
  }
}

const nameLength = (node: SyntaxNode) => node.name!.length;

/** Nodes of the TypeScript parser that hold a value. */
const WITH_VALUE = [
  'TSAsExpression',
  'TSSatisfiesExpression',
  'TSNonNullExpression',
  'TSInstantiationExpression',
];

/** A type where a type may stand. */
const isBareType = (node: SyntaxNode) => node.type.startsWith('TS') && !WITH_VALUE.includes(node.type);

/** The head of a loop has semicolons of its own, so a declaration in it is no statement that ends open. */
function partsOfLoop(node: SyntaxNode): SyntaxNode[] {
  const head = node.init ?? node.left;
  return childrenOf(node).flatMap((child) => (child === head ? childrenOf(child) : child));
}
