import { create } from 'zustand';

export const lights = ['as the system', 'light', 'dark'] as const;
export type Light = (typeof lights)[number];
export const textSizes = [100, 125, 150, 200] as const;
export type TextSize = (typeof textSizes)[number];

interface Reading {
  readonly light: Light;
  readonly size: TextSize;
}

const dark = window.matchMedia('(prefers-color-scheme: dark)');

function remembered(): Reading {
  const light = lights.find((each) => each === window.localStorage.getItem('lotfile.light')) ?? 'as the system';
  const size = textSizes.find((each) => String(each) === window.localStorage.getItem('lotfile.size')) ?? 100;
  return { light, size };
}

/** How the person likes to read: light and size of letters, kept in this browser. */
export const useReading = create<Reading>()(() => remembered());

function show({ light, size }: Reading): void {
  const isDark = light === 'dark' || (light === 'as the system' && dark.matches);
  document.documentElement.setAttribute('data-light', isDark ? 'dark' : 'light');
  document.documentElement.style.setProperty('--text-scale', String(size / 100));
  document.documentElement.classList.toggle('large-letters', size >= 150);
}

export function readLike(change: Partial<Reading>): void {
  useReading.setState(change);
  const now = useReading.getState();
  window.localStorage.setItem('lotfile.light', now.light);
  window.localStorage.setItem('lotfile.size', String(now.size));
}

export function beginReading(): void {
  show(useReading.getState());
  useReading.subscribe(show);
  dark.addEventListener('change', () => show(useReading.getState()));
}
