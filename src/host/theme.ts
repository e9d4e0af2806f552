import { keepSetting, readSetting } from './settings.ts';

/** Light or dark as the reader chose, or as the system says. */
export const THEMES = ['auto', 'light', 'dark'] as const;
/** One of `THEMES`. */
export type ThemeChoice = (typeof THEMES)[number];

const KEY = 'hourline-theme';
const system = matchMedia('(prefers-color-scheme: dark)');

/** What the reader chose, or `auto`. */
export function themeChoice(): ThemeChoice {
  const kept = readSetting(KEY);
  return THEMES.find((theme) => theme === kept) ?? 'auto';
}

/** The theme to be shown now. */
export function currentTheme(): 'light' | 'dark' {
  const choice = themeChoice();
  if (choice !== 'auto') return choice;
  return system.matches ? 'dark' : 'light';
}

/** Remembers the choice; whoever shows it asks for `currentTheme`. */
export function chooseTheme(choice: ThemeChoice): void {
  keepSetting(KEY, choice);
}

/** Calls when the system turns from light to dark or back. */
export function onSystemTheme(changed: () => void): void {
  system.addEventListener('change', changed);
}
