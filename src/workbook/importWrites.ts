import { childrenOf, isFunction, type SyntaxNode, statementsOf } from './syntax.ts';

/** The identifiers that a pattern binds or assigns to. */
function boundIdentifiers(pattern: SyntaxNode | null | undefined): SyntaxNode[] {
  switch (pattern?.type) {
    case 'Identifier':
      return [pattern];
    case 'ObjectPattern':
      return pattern.properties!.flatMap((p) =>
        boundIdentifiers(p.type === 'RestElement' ? p : (p.value as SyntaxNode)),
      );
    case 'ArrayPattern':
      return pattern.elements!.flatMap(boundIdentifiers);
    case 'AssignmentPattern':
      return boundIdentifiers(pattern.left);
    case 'RestElement':
      return boundIdentifiers(pattern.argument);
    case 'TSAsExpression':
    case 'TSSatisfiesExpression':
    case 'TSNonNullExpression':
      return boundIdentifiers(pattern.expression);
    default:
      return [];
  }
}

/** Names that a statement itself declares, `var` and block-scoped alike. */
export function declaredNames(statement: SyntaxNode): string[] {
  if (statement.type === 'VariableDeclaration') {
    return statement.declarations!.flatMap((d) => boundIdentifiers(d.id)).map((i) => i.name!);
  }
  const named = statement.type === 'FunctionDeclaration' || statement.type === 'ClassDeclaration';
  return named && statement.id ? [statement.id.name!] : [];
}

/** Names of all `var` of a function, however deep in its blocks. */
function varNames(node: SyntaxNode): string[] {
  if (isFunction(node)) return [];
  const own = node.type === 'VariableDeclaration' && node.kind === 'var' ? declaredNames(node) : [];
  return [...own, ...childrenOf(node).flatMap(varNames)];
}

/** Names that hide outer ones inside this node. */
function namesOfScope(node: SyntaxNode): string[] {
  if (isFunction(node)) {
    const parameters = node.params!.flatMap(boundIdentifiers).map((i) => i.name!);
    const own = node.id ? [node.id.name!] : [];
    return [...own, ...parameters, ...childrenOf(node).flatMap(varNames)];
  }
  switch (node.type) {
    case 'BlockStatement':
    case 'StaticBlock':
      return statementsOf(node).flatMap(declaredNames);
    case 'SwitchStatement':
      return childrenOf(node).flatMap(childrenOf).flatMap(declaredNames);
    case 'ForStatement':
    case 'ForInStatement':
    case 'ForOfStatement':
      return childrenOf(node).flatMap(declaredNames);
    case 'CatchClause':
      return boundIdentifiers(node.param).map((i) => i.name!);
    case 'ClassExpression':
      return node.id ? [node.id.name!] : [];
    default:
      return [];
  }
}

function assignedIdentifiers(node: SyntaxNode): SyntaxNode[] {
  switch (node.type) {
    case 'AssignmentExpression':
    case 'ForInStatement':
    case 'ForOfStatement':
      return boundIdentifiers(node.left);
    case 'UpdateExpression':
      return boundIdentifiers(node.argument);
    default:
      return [];
  }
}

/** The first assignment to one of the imported names, or null. */
export function findImportWrite(node: SyntaxNode, imported: ReadonlySet<string>): SyntaxNode | null {
  if (imported.size === 0) return null;
  const hidden = namesOfScope(node);
  const visible = hidden.some((n) => imported.has(n))
    ? new Set([...imported].filter((n) => !hidden.includes(n)))
    : imported;
  const written = assignedIdentifiers(node).find((i) => visible.has(i.name!));
  if (written) return written;
  for (const child of childrenOf(node)) {
    const found = findImportWrite(child, visible);
    if (found) return found;
  }
  return null;
}
