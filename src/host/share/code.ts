/**
 * The code of a cell as it stands in a share page: HTML to whoever reads the page, and the very source to whoever opens it
 * in Hourline. So a page cannot show one code and hold another, and says it once.
 */

/** What HTML, UTF-8 or a transport by lines would change: markup, returns, zeros, halves of characters. */
const CHANGING = /[&<\r\0]|\p{Surrogate}/gu;
const NAMES: Record<string, string> = { '&': 'amp', '<': 'lt' };

/** Code as text in HTML, from which `plainCode` has every character again. */
export const escapeCode = (code: string): string =>
  code.replace(CHANGING, (character) => `&${NAMES[character] ?? `#${character.charCodeAt(0)}`};`);

/** A browser that saves the page anew writes more of them. */
const CHARACTERS: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"' };

/** The code again from its HTML: without the elements around its words, with its characters. */
export const plainCode = (html: string): string =>
  html
    .replace(/<[^>]*>/g, '')
    // We write none; a transport by lines may have.
    .replace(/\r\n?/g, '\n')
    .replace(/&(?:#(\d{1,5})|(amp|lt|gt|quot));/g, (_, code, name) =>
      code === undefined ? CHARACTERS[name]! : String.fromCharCode(Number(code)),
    );
