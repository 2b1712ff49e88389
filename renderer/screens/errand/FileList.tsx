import type { PacketFileRow } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { saveFile } from '../../state/saving.ts';
import { FileLine } from './FileLine.tsx';

/** One after the other: a browser takes a download up before the next begins, the desktop asks where. */
async function saveAll(files: readonly PacketFileRow[]): Promise<void> {
  for (const { ticket, name } of files) await saveFile({ ticket, name });
}

interface FileListProps {
  readonly files: readonly PacketFileRow[];
  /** Names of files of the packet that the lot folder has lost. */
  readonly missing?: readonly string[] | undefined;
}

/** The finished files of a packet, each to be saved, or all at once. */
export function FileList({ files, missing = [] }: FileListProps) {
  return (
    <>
      <ul className="errand-file-list">
        {files.map((file) => (
          <FileLine key={file.name} file={file} />
        ))}
      </ul>
      {missing.map((name) => (
        <p key={name} className="errand-red">
          {name} is missing from the lot folder. Assemble the packet again.
        </p>
      ))}
      {files.length < 2 ? null : (
        <p>
          <Button small onPress={() => void saveAll(files)}>
            {files.length === 2 ? 'Save both' : `Save all ${files.length}`}
          </Button>
        </p>
      )}
    </>
  );
}
