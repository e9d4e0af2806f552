import { html, nothing, type TemplateResult } from 'lit';
import type { Desk, LookedAt, Message } from '../desk.ts';
import type { Session } from '../session.ts';

/** What the bars can ask for. */
export interface BarActions {
  run(): void;
  stop(): void;
  open(run: boolean): void;
  saveToFile(): void;
  openOther(): void;
  tryAgain(): void;
  takeBack(): void;
  restore(version: LookedAt): void;
  openPresent(version: LookedAt): void;
  dismiss(): void;
}

/** One line above the workbook for each thing the reader has to know or decide now. */
export function bars(desk: Desk | null, on: BarActions) {
  const { session = null, message = null, version = null } = desk ?? {};
  return [
    message ? messageBar(message, on) : nothing,
    version ? versionBar(version, on) : nothing,
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

function messageBar({ text, offer }: Message, on: BarActions) {
  const close = button('Close', on.dismiss);
  if (offer === 'undo') return bar('note', text, button('Undo', on.takeBack), close);
  if (offer === 'save-to-file') return bar('note', text, button('Save to a file', on.saveToFile), close);
  return bar('note', text, close);
}

function versionBar(version: LookedAt, on: BarActions) {
  const when = new Date(version.at).toLocaleString();
  const text =
    `An earlier version, as of ${when}. The workbook itself is as you left it; if you change something here, ` +
    'that is kept as a workbook of its own.';
  return bar(
    'note',
    text,
    button('Restore this version', () => on.restore(version)),
    button('Back to the workbook', () => on.openPresent(version)),
  );
}

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
  return bar('note', whyHeld(session), button('Run', on.run));
}

function whyHeld({ mayRun, interrupted }: Session): string {
  if (mayRun && interrupted)
    return (
      'Not run: when this workbook was open last, a run had not ended before its tab or the browser did. If one of ' +
      'its cells runs without end, mend it first.'
    );
  return mayRun
    ? 'Opened without running: you can read and change the cells; nothing is calculated until you run it.'
    : 'Nothing has run: this workbook came from a file, or was stopped for trying to leave its page. Running lets ' +
        'its code calculate on this page; it cannot read your other workbooks or send anything away.';
}

function savingBar({ saving, other }: Session, on: BarActions) {
  if (saving.state === 'failed') {
    const text =
      `Not saved: this browser did not store the workbook (${saving.reason}). You can go on working, but what ` +
      'you change lasts only as long as this tab. Save it to a file to keep it.';
    return bar('problem', text, button('Save to a file', on.saveToFile), button('Try again', on.tryAgain));
  }
  if (saving.state === 'refused') {
    const text =
      'Not saved: with the last change the workbook holds more than can be kept, most likely a table or a cell of over a ' +
      'million characters. Take the change back or shorten it; what was there before it is saved.';
    return bar('problem', text);
  }
  if (!other) return nothing;
  const text =
    'This workbook was changed or deleted in another tab. Nothing was overwritten: what you have here is kept as a ' +
    'copy, a workbook of its own.';
  return bar('note', text, button('Open the other one', on.openOther));
}
