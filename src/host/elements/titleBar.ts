import { html } from 'lit';
import type { Phase, Saving, Session } from '../session.ts';
import { chooseTheme, THEMES, type ThemeChoice, themeChoice } from '../theme.ts';
import { troubleIn } from '../trouble.ts';
import { LightElement } from './light.ts';

const SAVING: Record<Saving['state'], string> = {
  saved: 'Saved in this browser',
  saving: 'Saving',
  failed: 'Not saved',
  refused: 'Not saved',
};

/** Name of the workbook, how it is doing, and what can be done with it as a whole. */
class TitleBar extends LightElement {
  static override properties = { session: { attribute: false }, drawn: { attribute: false } };

  declare session: Session | null;
  /** Changes whenever the session did, so that the bar is drawn again. */
  declare drawn: number;

  override render() {
    const { session } = this;
    return html`
      <span class="mark">Hourline</span>
      <input
        class="title"
        aria-label="Title of the workbook"
        maxlength="200"
        .value=${session?.document.title ?? ''}
        @change=${(event: Event) => this.session?.rename((event.target as HTMLInputElement).value)}
      />
      <p class="status" role="status">${session ? statusOf(session) : 'Opening'}</p>
      <div class="actions">
        <button type="button" @click=${() => this.say('show-workbooks')}>Workbooks</button>
        <button type="button" @click=${() => this.say('show-share')}>Share page</button>
        ${runButton(
          session,
          () => this.say('stop-workbook'),
          () => this.say('restart-workbook'),
        )}
        ${themeSelect((choice) => {
          chooseTheme(choice);
          this.say('theme-chosen');
        })}
      </div>
    `;
  }
}

function runButton(session: Session | null, stop: () => void, restart: () => void) {
  const stopped = session?.phase === 'stopped';
  return stopped
    ? html`<button type="button" @click=${restart}>Restart</button>`
    : html`<button type="button" @click=${stop}>Stop</button>`;
}

const themeSelect = (chosen: (choice: ThemeChoice) => void) => html`
  <label class="theme"><span>Theme</span> <select
    aria-label="Theme"
    .value=${themeChoice()}
    @change=${(event: Event) => chosen((event.target as HTMLSelectElement).value as ThemeChoice)}
  >
    ${THEMES.map((theme) => html`<option value=${theme} ?selected=${theme === themeChoice()}>${THEME_NAMES[theme]}</option>`)}
  </select></label>
`;

const THEME_NAMES: Record<ThemeChoice, string> = {
  auto: 'Auto',
  light: 'Light',
  dark: 'Dark',
};

const PHASES: Record<Exclude<Phase, 'running'>, string> = {
  starting: 'Opening',
  held: 'Not running',
  stopped: 'Stopped',
};

function statusOf(session: Session) {
  // A sample is kept only once something in it was changed.
  const kept =
    session.saving.state === 'saved' && !session.stored ? 'Nothing to save' : SAVING[session.saving.state];
  return html`${doingOf(session)}<span class="kept"> · ${kept}</span>`;
}

/** What the workbook does; when cells have failed or wait, a way to the first of them. */
function doingOf(session: Session) {
  const { phase, answering, status } = session;
  if (phase !== 'running') return PHASES[phase];
  if (!answering) return 'Not answering';
  if (!status.started || status.running > 0) return 'Running';
  const trouble = troubleIn(status);
  if (!trouble) return 'Up to date';
  // Cells that only wait are no fault: the reader may have yet to enter a test.
  const { tone, first } =
    status.failed > 0
      ? { tone: 'upset', first: 'the first that failed' }
      : { tone: '', first: 'the first that waits' };
  return html`<button type="button" class=${`trouble ${tone}`} aria-label=${`${trouble}: go to ${first}`}
    title=${`Go to ${first}`} @click=${() => session.showTrouble()}>${trouble}</button>`;
}

customElements.define('hour-title-bar', TitleBar);
