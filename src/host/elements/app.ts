import { html } from 'lit';
import { Desk } from '../desk.ts';
import { athleteOf } from '../library/athleteOf.ts';
import { keepForOffline } from '../offline/keep.ts';
import { currentTheme, onSystemTheme } from '../theme.ts';
import { troubleIn } from '../trouble.ts';
import { type BarActions, bars } from './bars.ts';
import { LightElement } from './light.ts';
import './titleBar.ts';
import './shareDialog.ts';
import type { ShareDialog } from './shareDialog.ts';
import type { WorkbooksDialog } from './workbooksDialog.ts';

/** The host page. It evaluates no cell code and puts nothing from a workbook into its own markup but text. */
class HostApp extends LightElement {
  static override properties = {
    drawn: { state: true },
    saving: { state: true },
    shareProblem: { state: true },
  };

  /** Counts the desk's changes. */
  declare drawn: number;
  declare saving: boolean;
  declare shareProblem: string;
  /** Set once the place for the frame exists, which is after the first drawing. */
  #desk: Desk | null = null;

  constructor() {
    super();
    this.drawn = 0;
    this.saving = false;
    this.shareProblem = '';
  }

  override firstUpdated(): void {
    this.#desk = new Desk(this.querySelector('main')!, () => {
      this.drawn++;
      if (this.#desk?.session?.upToDate) keepForOffline();
    });
    this.#applyTheme();
    onSystemTheme(() => this.#applyTheme());
    // The host asks, since a frame that listened for this could not be stopped: see src/frame/lockdown.ts.
    document.addEventListener('visibilitychange', () => this.#desk?.session?.flush());
    addEventListener('pagehide', () => this.#desk?.session?.part());
    addEventListener('hashchange', () => this.#desk?.openAddress());
    addEventListener('beforeunload', (event) => this.#warnBeforeLeaving(event));
    void this.#desk.openAddress();
  }

  override render() {
    const desk = this.#desk;
    const session = desk?.session ?? null;
    return html`
      <header>
        <hour-title-bar
          .session=${session}
          .drawn=${this.drawn}
          @show-workbooks=${this.#showWorkbooks}
          @show-share=${() => this.querySelector<ShareDialog>('hour-share-dialog')!.show()}
          @stop-workbook=${this.#actions.stop}
          @restart-workbook=${() => this.#actions.open(session?.mayRun ?? false)}
          @theme-chosen=${this.#applyTheme}
        ></hour-title-bar>
        ${bars(desk, this.#actions)}
      </header>
      <main></main>
      <hour-workbooks-dialog .desk=${desk}></hour-workbooks-dialog>
      <hour-share-dialog
        .busy=${this.saving}
        .problem=${this.shareProblem}
        .athlete=${session ? athleteOf(session.document) : ''}
        .trouble=${session ? troubleIn(session.status) : ''}
        @save-share=${(event: CustomEvent<string | null>) => this.#saveShare(event.detail)}
      ></hour-share-dialog>
    `;
  }

  readonly #actions: BarActions = {
    run: () => this.#desk?.session?.run(),
    stop: () => this.#desk?.session?.stop(),
    open: (run) => this.#desk?.session?.reopen(run),
    saveToFile: () => this.#desk?.saveToFile(),
    openOther: () => this.#desk?.openOther(),
    tryAgain: () => this.#desk?.tryAgain(),
    takeBack: () => this.#desk?.takeBack(),
    restore: (version) => this.#desk?.restore(version),
    openPresent: (version) => this.#desk?.open(version.id),
    dismiss: () => this.#desk?.dismiss(),
  };

  async #showWorkbooks(): Promise<void> {
    await import('./workbooksDialog.ts');
    await this.querySelector<WorkbooksDialog>('hour-workbooks-dialog')!.show();
  }

  async #saveShare(words: string | null): Promise<void> {
    this.saving = true;
    this.shareProblem = (await this.#desk?.saveShare(words)) ?? '';
    this.saving = false;
    if (!this.shareProblem) this.querySelector<ShareDialog>('hour-share-dialog')!.close();
  }

  #applyTheme(): void {
    const theme = currentTheme();
    document.documentElement.dataset.theme = theme;
    this.#desk?.session?.setTheme(theme);
  }

  #warnBeforeLeaving(event: BeforeUnloadEvent): void {
    const state = this.#desk?.session?.saving.state;
    if (state === 'failed' || state === 'refused') event.preventDefault();
  }
}

customElements.define('hour-app', HostApp);
