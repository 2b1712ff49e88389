import { takeBack } from '../state/doing.ts';
import { useLot } from '../state/session.ts';

function isTyping(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable ||
      /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) ||
      target.getAttribute('role') === 'spinbutton')
  );
}

/** Keys that work everywhere: "/" to the find line, Ctrl or Cmd and Z to take back. Not while typing. */
export function beginKeys(): void {
  window.addEventListener('keydown', (event) => {
    if (useLot.getState().handle === undefined || isTyping(event.target)) return;
    if (event.key === '/' && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      document.getElementById('find')?.focus();
    } else if (event.key === 'z' && (event.ctrlKey || event.metaKey) && !event.shiftKey) {
      event.preventDefault();
      void takeBack();
    }
  });
}
