import { html, nothing, type TemplateResult } from 'lit';
import type { Message } from '../desk.ts';
import type { Session } from '../session.ts';

/** What the bars can ask for. */
export interface BarActions {
  run(): void;
  stop(): void;
  open(run: boolean): void;
  saveToFile(): void;
  keepAsCopy(): void;
  openOther(): void;
  takeBack(): void;
  dismiss(): void;
}

/** One line above the workbook for each thing the reader has to know or decide now. */
export function bars(session: Session | null, message: Message | null, on: BarActions) {
  return [
    message ? messageBar(message, on) : nothing,
    session ? phaseBar(session, on) : nothing,
    session ? savingBar(session, on) : nothing,
  ];
}

const button = (label: string, act: () => void) =>
  html`<button type="button" @click=${act}>${label}</button>`;

const bar = (tone: string, text: string, ...buttons: TemplateResult[]) => html`
  <div class="bar ${tone}" role=${tone === 'problem' ? 'alert' : 'status'}>
    <p>${text}</p>
    <div class="actions">${buttons}</div>
  </div>
`;

const messageBar = ({ text, undo }: Message, on: BarActions) =>
  bar('note', text, ...(undo ? [button('Undo', on.takeBack)] : []), button('Close', on.dismiss));

function phaseBar(session: Session, on: BarActions) {
  if (!session.answering) {
    const text =
      'The workbook is not answering: a cell may be running without end, or for long. Your text is kept. ' +
      'Stop it, then open it without running and mend the cell.';
    return bar('problem', text, button('Stop', on.stop));
  }
  if (session.phase === 'stopped' && session.triedToLeave) {
    const text =
      'The workbook was stopped: one of its cells tried to go to another page, which an analysis never needs. ' +
      'Do not run it again unless you know why.';
    return bar(
      'problem',
      text,
      button('Open without running', () => on.open(false)),
    );
  }
  if (session.phase === 'stopped') {
    const restart = session.mayRun ? [button('Restart', () => on.open(true))] : [];
    const text = 'The workbook is stopped. Its text is kept.';
    return bar(
      'note',
      text,
      ...restart,
      button('Open without running', () => on.open(false)),
    );
  }
  if (session.phase !== 'held') return nothing;
  const text = session.mayRun
    ? 'Opened without running: you can read and change the cells; nothing is calculated until you run it.'
    : 'Nothing has run: this workbook came from a file, or was stopped for trying to leave its page. Running lets ' +
      'its code calculate on this page; it cannot read your other workbooks or send anything away.';
  return bar('note', text, button('Run', on.run));
}

function savingBar({ saving }: Session, on: BarActions) {
  if (saving.state === 'failed') {
    const text =
      `Not saved: this browser did not store the workbook (${saving.reason}). You can go on working, but what ` +
      'you change lasts only as long as this tab. Save it to a file to keep it.';
    return bar('problem', text, button('Save to a file', on.saveToFile));
  }
  if (saving.state !== 'conflict') return nothing;
  const text =
    'This workbook was changed or deleted in another tab. Nothing was overwritten; from here on this tab is not saved.';
  return bar(
    'problem',
    text,
    button('Keep this one as a copy', on.keepAsCopy),
    button('Open the other one', on.openOther),
  );
}
