import { Button } from '../../kit/Button.tsx';

export interface FileOrderProps {
  readonly files: readonly string[];
  readonly onFiles: (files: readonly string[]) => void;
}

function moved(files: readonly string[], from: number, to: number): readonly string[] {
  const rest = files.filter((_, at) => at !== from);
  return [...rest.slice(0, to), files[from] ?? '', ...rest.slice(to)];
}

/** Several files that make one paper, in the order of their pages. */
export function FileOrder({ files, onFiles }: FileOrderProps) {
  if (files.length < 2) return null;
  return (
    <section className="table-order" aria-label="Files of this paper, in order">
      <h3>One paper from {files.length} files</h3>
      <ol>
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
    </section>
  );
}
