import type { CellProblem } from './engineTypes.ts';

/** A node of the syntax tree, with the fields of all kinds of node that this folder looks at. */
export interface SyntaxNode {
  type: string;
  start: number;
  end: number;
  kind?: string;
  name?: string;
  operator?: string;
  value?: unknown;
  async?: boolean;
  await?: boolean;
  computed?: boolean;
  optional?: boolean;
  definite?: boolean;
  declare?: boolean;
  abstract?: boolean;
  accessor?: boolean;
  shorthand?: boolean;
  importKind?: string;
  exportKind?: string;
  body?: SyntaxNode | SyntaxNode[];
  declaration?: SyntaxNode | null;
  declarations?: SyntaxNode[];
  specifiers?: SyntaxNode[];
  source?: SyntaxNode | null;
  meta?: SyntaxNode;
  local?: SyntaxNode;
  imported?: SyntaxNode;
  exported?: SyntaxNode | null;
  id?: SyntaxNode | null;
  key?: SyntaxNode;
  init?: SyntaxNode | null;
  left?: SyntaxNode;
  right?: SyntaxNode;
  argument?: SyntaxNode | null;
  expression?: SyntaxNode;
  elements?: (SyntaxNode | null)[];
  properties?: SyntaxNode[];
  param?: SyntaxNode | null;
  params?: SyntaxNode[];
  decorators?: SyntaxNode[];
  implements?: SyntaxNode[];
  superTypeParameters?: SyntaxNode | null;
  typeAnnotation?: SyntaxNode | null;
  typeArguments?: SyntaxNode | null;
  typeParameters?: SyntaxNode | null;
  returnType?: SyntaxNode | null;
}

const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === 'object' && value !== null && typeof (value as SyntaxNode).type === 'string';

/** The nodes directly below, in the order of the tree's fields. */
export function childrenOf(node: SyntaxNode): SyntaxNode[] {
  const found: SyntaxNode[] = [];
  for (const key in node) {
    const value = node[key as keyof SyntaxNode] as unknown;
    if (isNode(value)) found.push(value);
    else if (Array.isArray(value)) for (const item of value) if (isNode(item)) found.push(item);
  }
  return found;
}

/** Whether a node of the syntax tree is a function, arrow functions included. */
export const isFunction = (node: SyntaxNode): boolean => /Function(Expression|Declaration)$/.test(node.type);

/** Statements of a program or block; [] for a node without any. */
export const statementsOf = (node: SyntaxNode): SyntaxNode[] => (Array.isArray(node.body) ? node.body : []);

/** Name of an imported or exported thing, which may be written as an identifier or as a string. */
export const nameOf = (node: SyntaxNode): string => node.name ?? String(node.value);

/** Line breaks as the language counts them. */
export const LINE_BREAK = /\r\n|[\n\r\u2028\u2029]/g;

/** 1-based line and column of an offset. */
export function placeOf(text: string, offset: number): { line: number; column: number } {
  let line = 1;
  let lineStart = 0;
  for (const match of text.slice(0, offset).matchAll(LINE_BREAK)) {
    line += 1;
    lineStart = match.index + match[0].length;
  }
  return { line, column: offset - lineStart + 1 };
}

/** A problem, placed in the text when an offset is given. */
export function problem(message: string, hint = '', text = '', offset: number | null = null): CellProblem {
  const place = offset === null ? { line: null, column: null } : placeOf(text, offset);
  return { message, hint, ...place };
}

/** Offset of the next character that is neither space nor comment. */
export function skipTrivia(text: string, from: number): number {
  const trivia = /(?:\s|\/\/[^\n\r\u2028\u2029]*|\/\*[\s\S]*?\*\/)*/y;
  trivia.lastIndex = from;
  trivia.test(text);
  return trivia.lastIndex;
}
