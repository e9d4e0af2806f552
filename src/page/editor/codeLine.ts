/** Spaces a line of code begins with. */
export const indentOf = (line: string): number => /^ */.exec(line)![0].length;

/** Lines of code as elements that wrap exactly as the lines of the editor do. */
export function plainLines(text: string): HTMLElement[] {
  const lines = text.split('\n');
  return lines.map((line, i) => {
    const element = document.createElement('span');
    element.className = 'code-line';
    element.style.setProperty('--indent', String(indentOf(line)));
    element.textContent = i < lines.length - 1 ? `${line}\n` : line;
    return element;
  });
}
