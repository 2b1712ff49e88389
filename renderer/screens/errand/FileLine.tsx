import type { PacketFileRow } from '../../../core/desk/contract/screen-answers.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { pdfBehind } from '../../kit/pdf-pages.ts';
import { saveFile, showFile } from '../../state/saving.ts';
import { tellTrouble } from '../../state/telling.ts';
import { openFinished } from './errand-store.ts';
import { bytesInWords } from './leaves.ts';

/** Opens a finished file; how many pages an untouched one has, it says itself. */
async function look({ ticket, name, pages }: PacketFileRow): Promise<void> {
  try {
    openFinished({ ticket, name, pages: pages > 0 ? pages : (await pdfBehind(ticket)).numPages });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    tellTrouble({ code: 'file refused', message: `${name} can’t be shown here: ${why}`, next: 'Save it and open it.' });
  }
}

/** One finished file: what it is, how large, and ways to get it out. On the desktop it can be dragged from here. */
export function FileLine({ file }: { readonly file: PacketFileRow }) {
  const { name, pages, bytes, ticket, sha256 } = file;
  const desktop = port.host === 'desktop';
  const readable = name.toLowerCase().endsWith('.pdf');
  return (
    <li className="errand-file">
      <a
        className="mono"
        href={port.address(ticket, 'save')}
        draggable={desktop}
        title={`SHA-256 ${sha256}`}
        onClick={(event) => {
          event.preventDefault();
          void saveFile({ ticket, name });
        }}
        onDragStart={(event) => {
          event.preventDefault();
          port.dragOut(ticket);
        }}
      >
        {name}
      </a>
      <span className="pencil small">
        {pages > 0 ? `${pages} ${pages === 1 ? 'page' : 'pages'}, ` : ''}
        {bytesInWords(bytes)}
        {desktop ? ', drag it out from here' : ''}
      </span>
      <span className="errand-row">
        {readable ? (
          <Button small onPress={() => void look(file)} label={`Look at the pages of ${name}`}>
            Look
          </Button>
        ) : null}
        <Button small onPress={() => void saveFile({ ticket, name })} label={`Save ${name}`}>
          Save
        </Button>
        {desktop ? (
          <Button small onPress={() => void showFile(ticket)} label={`Show ${name} in its folder`}>
            Show
          </Button>
        ) : null}
      </span>
    </li>
  );
}
