import { html, nothing } from 'lit';
import { plain } from '../../results/inspect.ts';
import { takeFile } from './bringing.ts';
import type { HourGrid } from './gridElement.ts';

/** What is still to be said about a file that was opened: which sheet, or how a recording is cut. */
export function broughtFile(element: HourGrid) {
  const { brought } = element;
  if (!brought) return nothing;
  const { file } = brought;
  const done = () => {
    element.brought = null;
  };
  if ('recording' in brought) {
    const use = (text: string) => {
      element.change(element.control.read(text, file.name), `Read from ${file.name}`, null);
      done();
      element.goTo({ row: 0, column: 0 }); // the button that was pressed is gone
    };
    const cancel = () => {
      done();
      element.querySelector<HTMLElement>('.file-tools button')!.focus();
    };
    return html`<hour-recording .recording=${brought.recording} .name=${file.name} .use=${use} .cancel=${cancel}></hour-recording>`;
  }
  const chosen = (event: Event) => void takeFile(element, file, (event.target as HTMLSelectElement).value);
  return html`<label class="tools">Sheet of ${plain(file.name)}
    <select @change=${chosen}>${brought.sheets.map(
      (sheet) => html`<option value=${sheet} ?selected=${sheet === brought.sheet}>${plain(sheet)}</option>`,
    )}</select>
  </label>`;
}
