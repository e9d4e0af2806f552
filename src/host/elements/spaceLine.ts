import { html, nothing } from 'lit';
import type { Library } from '../library/library.ts';
import { sizeInWords } from '../library/space.ts';

/** Above this share of what may be used, room is offered to be made. */
const TIGHT = 0.8;

const count = (workbooks: number) => (workbooks === 1 ? '1 workbook' : `${workbooks} workbooks`);

/** How much is kept, how safely, and what can be done about both. */
export function spaceLine(library: Library) {
  const { contents, space } = library;
  const kept = count(contents.workbooks.length);
  if (!space)
    return html`<p class="note">${kept}. On this device only: now and then, save them to a file.</p>`;
  const used = `${kept}; ${sizeInWords(space.used)} of at most ${sizeInWords(space.most)} used`;
  const lasting = space.lasting
    ? 'This browser promised to keep them'
    : 'This browser may clear them when the disk runs short or they lie unused for long';
  return html`
    <p class="note">${used}. On this device only. ${lasting}: now and then, save them to a file.</p>
    <div class="actions">
      ${space.lasting ? nothing : html`<button type="button" @click=${() => library.askToLast()}>Ask the browser to keep them</button>`}
      ${
        space.used > TIGHT * space.most
          ? html`<button type="button" @click=${() => library.forgetVersions()}>Remove all earlier versions, to make room</button>`
          : nothing
      }
    </div>
  `;
}
