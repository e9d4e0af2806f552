const isLineBreak = (character: string) => /[\n\r\u2028\u2029]/.test(character);

/**
 * A text that is overwritten in place, so that everything that is left keeps its line and column. Positions are
 * those of the original text throughout.
 */
export class Overlay {
  readonly original: string;
  readonly #characters: string[];

  constructor(text: string) {
    this.original = text;
    this.#characters = text.split('');
  }

  /** Spaces instead of the text; line breaks stay. */
  blank(start: number, end: number): void {
    for (let i = start; i < end; i++) {
      if (!isLineBreak(this.original[i]!)) this.#characters[i] = ' ';
    }
  }

  /** Writes over what stands at `at`; the caller sees to it that there is room before the next line break. */
  put(at: number, text: string): void {
    for (let i = 0; i < text.length; i++) this.#characters[at + i] = text[i]!;
  }

  /** A semicolon before `at`: over a space where there is one, else squeezed in. */
  endStatement(at: number): void {
    const next = this.original[at];
    if (next === ' ' || next === '\t') this.#characters[at] = ';';
    else this.#characters[at - 1] += ';';
  }

  /**
   * Removes a whole statement or class member. The semicolon keeps what follows from being read as the
   * continuation of what came before.
   */
  erase(start: number, end: number): void {
    this.blank(start, end);
    this.put(start, ';');
  }

  hasLineBreak(start: number, end: number): boolean {
    return isLineBreak(this.original.slice(start, end));
  }

  toString(): string {
    return this.#characters.join('');
  }
}
