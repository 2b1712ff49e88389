import { FileTrigger } from 'react-aria-components/FileTrigger';
import { Button } from '../../kit/Button.tsx';
import { layDown } from './lay-down.ts';
import { useTable } from './table-state.ts';

/** What can be kept, so that the system's own dialog shows it first; anything else is refused with a reason. */
const kinds = ['application/pdf', 'image/jpeg', 'image/png', 'image/heic', 'image/heif', 'image/tiff', 'image/webp'];

export interface ChooseFilesProps {
  readonly as?: 'stamp' | 'plain' | undefined;
}

export function ChooseFiles({ as }: ChooseFilesProps) {
  const taking = useTable((state) => state.taking);
  return (
    <FileTrigger
      allowsMultiple
      acceptedFileTypes={kinds}
      onSelect={(list) => {
        const files = [...(list ?? [])];
        if (files.length > 0) void layDown(files);
      }}
    >
      <Button as={as} disabled={taking > 0}>
        {taking === 0 ? 'Choose files' : `Taking in ${taking === 1 ? 'a file' : `${taking} files`} ...`}
      </Button>
    </FileTrigger>
  );
}
