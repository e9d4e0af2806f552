import { keepSetting, readSetting } from './settings.ts';

/** Light or dark as the reader chose, or as the system says. */
export const THEMES = ['auto', 'light', 'dark'] as const;
export type ThemeChoice = (typeof THEMES)[number];

const KEY = 'hourline-theme';
const system = matchMedia('(prefers-color-scheme: dark)');

export function themeChoice(): ThemeChoice {
  const kept = readSetting(KEY);
  return THEMES.find((theme) => theme === kept) ?? 'auto';
}

export function currentTheme(): 'light' | 'dark' {
  const choice = themeChoice();
  if (choice !== 'auto') return choice;
  return system.matches ? 'dark' : 'light';
}

export function chooseTheme(choice: ThemeChoice): void {
  keepSetting(KEY, choice);
}

export function onSystemTheme(changed: () => void): void {
  system.addEventListener('change', changed);
}
