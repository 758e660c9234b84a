/** Light or dark: the device's wish unless a person chose. */
import { signal } from '@preact/signals';
import { keep, kept } from './kept.ts';

export const themes = ['auto', 'light', 'dark'] as const;
export type Theme = (typeof themes)[number];
const key = 'preheat.theme';

export const theme = signal<Theme>(kept(key, (value): value is Theme => themes.includes(value as Theme)) ?? 'auto');
/** What is shown now; the chart draws its own colours from it. */
export const shown = signal<'light' | 'dark'>('light');

export const startTheme = (): void => {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const apply = (): void => {
    shown.value = theme.value === 'auto' ? (dark.matches ? 'dark' : 'light') : theme.value;
    document.documentElement.dataset.theme = shown.value;
  };
  apply();
  dark.addEventListener('change', apply);
  theme.subscribe(apply);
};

export const chooseTheme = (now: Theme): void => {
  theme.value = now;
  keep(key, now);
};
