import { useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Tick } from '../../kit/Tick.tsx';

export interface FileOrderProps {
  readonly files: readonly string[];
  /** What else lies on the table and is in no other paper yet. */
  readonly others: readonly string[];
  readonly onFiles: (files: readonly string[]) => void;
}

function moved(files: readonly string[], from: number, to: number): readonly string[] {
  const rest = files.filter((_, at) => at !== from);
  return [...rest.slice(0, to), files[from] ?? '', ...rest.slice(to)];
}

function Order({ files, onFiles }: Pick<FileOrderProps, 'files' | 'onFiles'>) {
  return (
    <ol className="table-order">
      {files.map((file, at) => (
        <li key={file}>
          <span className="table-name">
            {at + 1}. {file}
          </span>
          <span>
            <Button
              as="word"
              small
              disabled={at === 0}
              onPress={() => onFiles(moved(files, at, at - 1))}
              label={`Move ${file} up`}
            >
              up
            </Button>{' '}
            <Button
              as="word"
              small
              disabled={at === files.length - 1}
              onPress={() => onFiles(moved(files, at, at + 1))}
              label={`Move ${file} down`}
            >
              down
            </Button>{' '}
            <Button
              as="word"
              small
              onPress={() => onFiles(files.filter((each) => each !== file))}
              label={`Take ${file} out of this paper`}
            >
              take out
            </Button>
          </span>
        </li>
      ))}
    </ol>
  );
}

/** Several files that make one paper, in the order of their pages. */
export function FileOrder({ files, others, onFiles }: FileOrderProps) {
  const [adding, add] = useState(false);
  if (files.length === 0 || (files.length === 1 && others.length === 0)) return null;
  return (
    <section className="table-files" aria-label="Files of this paper, in order">
      {files.length < 2 ? null : (
        <>
          <h3>One paper from {files.length} files</h3>
          <Order files={files} onFiles={onFiles} />
        </>
      )}
      {others.length === 0 ? null : (
        <Button as="word" small onPress={() => add(!adding)}>
          {adding ? 'That is all of it' : 'Other files belong to it, too'}
        </Button>
      )}
      {adding
        ? others.map((file) => (
            <Tick key={file} checked={false} onChange={() => onFiles([...files, file])}>
              {file}
            </Tick>
          ))
        : null}
    </section>
  );
}
