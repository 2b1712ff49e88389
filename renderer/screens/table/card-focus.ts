/** The card changed under the hands: the keyboard goes on at its head, or where the table is clear. */
export function focusCard(): void {
  requestAnimationFrame(() => document.querySelector<HTMLElement>('.table-next')?.focus());
}
