import { create } from 'zustand';

/** Which form: of which errand and need, for which firm, and the blank where the person named it. */
export interface FormWanted {
  readonly errand: string;
  readonly need: string;
  readonly subject?: string | undefined;
  readonly blank?: string | undefined;
}

/** The box the pointer or the keyboard is at: it is marked on the sheet. */
export const useFormView = create<{ readonly field?: string | undefined }>()(() => ({}));

/** What a line of the list tells the sheet: which box it is about. */
export function pointAt(field: string) {
  const point = (): void => useFormView.setState({ field });
  return { onPointerEnter: point, onFocus: point };
}
