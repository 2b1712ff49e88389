import { useEffect, useState } from 'react';
import { go, usePlace } from '../../state/place.ts';
import { useLot } from '../../state/session.ts';
import { layDown } from './lay-down.ts';
import './drop.css';

function carriesFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes('Files') === true;
}

/** Whoever hears first takes it; a second of these in one window leaves it alone. */
function isTaken(event: DragEvent): boolean {
  return event.defaultPrevented || !carriesFiles(event) || useLot.getState().handle === undefined;
}

function hear(show: (over: boolean) => void): () => void {
  const over = (event: DragEvent): void => {
    if (isTaken(event)) return;
    event.preventDefault();
    if (event.dataTransfer !== null) event.dataTransfer.dropEffect = 'copy';
    show(true);
  };
  // Leaving the window has no element to go to.
  const leave = (event: DragEvent): void => {
    if (event.relatedTarget === null) show(false);
  };
  const drop = (event: DragEvent): void => {
    if (isTaken(event)) return;
    event.preventDefault();
    show(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    if (files.length === 0) return;
    if (usePlace.getState().screen !== 'table') go('table');
    void layDown(files);
  };
  window.addEventListener('dragenter', over);
  window.addEventListener('dragover', over);
  window.addEventListener('dragleave', leave);
  window.addEventListener('drop', drop);
  return () => {
    window.removeEventListener('dragenter', over);
    window.removeEventListener('dragover', over);
    window.removeEventListener('dragleave', leave);
    window.removeEventListener('drop', drop);
  };
}

/** Files dropped anywhere in the window come to the table. For the keyboard there is "Choose files" there. */
export function DropAnywhere() {
  const [over, show] = useState(false);
  useEffect(() => hear(show), []);
  if (!over) return null;
  return (
    <div className="drop-veil" aria-hidden="true">
      <p className="slab">Let go: it comes on the table</p>
    </div>
  );
}
