import { useState } from 'react';
import { FileTrigger } from 'react-aria-components/FileTrigger';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { beginWork } from '../../state/doing.ts';
import { openFolder } from '../../state/lot.ts';
import { tellDone, tellTrouble } from '../../state/telling.ts';

/** "heron-lane-2026-04-14.lot.zip" -> "heron-lane": the folder bears the lot's name, not the day of its backup. */
function titleFrom(file: string): string {
  const plain = file.replace(/(\.lot)?\.zip$/i, '').replace(/[\s_-]*\d{4}-\d{2}-\d{2}.*$/, '');
  return plain === '' ? 'lot' : plain;
}

/** An empty folder that was made for an attempt that failed: the next one uses it. */
let waiting: string | undefined;

async function folderFor(file: File): Promise<string | ErrorShape> {
  if (waiting !== undefined) return waiting;
  const made = await port.act('make-folder', { title: titleFrom(file.name) });
  return made.ok ? made.answer.folder : made.error;
}

/** Makes a lot folder of the bundle, looks through every file of it once more, and goes there. */
async function restore(file: File): Promise<ErrorShape | undefined> {
  const id = crypto.randomUUID();
  const end = beginWork(id, 'Making the lot from the bundle');
  try {
    const [offered] = await port.offer([file]);
    if (offered === undefined) return undefined;
    if (!offered.ok) return offered.error;
    const folder = await folderFor(file);
    if (typeof folder !== 'string') return folder;
    waiting = folder;
    const reply = await port.ask('restore', { bundle: offered.answer.ticket, folder }, { id });
    if (!reply.ok) return reply.error;
    waiting = undefined;
    const { title, files, notes } = reply.answer;
    const error = await openFolder(folder, { screen: 'today' });
    if (error !== undefined) return error;
    for (const note of notes) tellTrouble({ code: 'paper damaged', message: note });
    if (notes.length === 0) tellDone(`${title} is here: ${files} files, each as it was when the bundle was made.`);
    return undefined;
  } finally {
    end();
  }
}

/** The other way in: everything comes in one file from another computer, or from a backup. */
export function RestoreBundle() {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<ErrorShape>();
  const choose = async (files: readonly File[]): Promise<void> => {
    const [file] = files;
    if (file === undefined) return;
    setBusy(true);
    setError(await restore(file));
    setBusy(false);
  };
  return (
    <section aria-labelledby="restore-bundle">
      <h2 id="restore-bundle">Restore a backup, or a bundle from another computer</h2>
      <p>
        Both are one file, made under What was done, its name ending in <span className="mono">.lot.zip</span>. It
        becomes a lot of its own here; lots that are here already are not touched. Where you go on with the lot on both
        computers, exchange bundles later and take over what is new.
      </p>
      {error === undefined ? null : <Trouble error={error} />}
      <FileTrigger acceptedFileTypes={['.zip']} onSelect={(files) => void choose([...(files ?? [])])}>
        <Button disabled={busy}>{busy ? 'Making the lot ...' : 'Choose the file ...'}</Button>
      </FileTrigger>
    </section>
  );
}
