import type { FoundRow } from '../../../core/desk/contract/answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import type { ScreenProps } from '../screen-props.ts';
import { FoundText } from './FoundText.tsx';
import { countInWords, type FoundEntry, type FoundGroup, groupFound, whyFound } from './group-found.ts';
import './find.css';

/** More than anybody reads; asking for more words is the better way on. */
const limit = 60;
/** Places shown of one thing before the rest is only counted. */
const shownPlaces = 4;

function addressOfRow({ sort, paper, edition, errand, office, page }: FoundRow): string {
  if (sort === 'errand') return addressOf('errand', errand ?? '');
  if (sort === 'office') return addressOf('offices', office ?? '');
  if (paper === undefined) return addressOf('papers');
  if (edition === undefined) return addressOf('papers', paper);
  return page === undefined ? addressOf('papers', paper, edition) : addressOf('papers', paper, edition, String(page));
}

function Place({ row }: { readonly row: FoundRow }) {
  const { snippet, marks, page } = row;
  const why = whyFound(row);
  return (
    <li className="find-place">
      <span className="find-why small">{page === undefined ? why : <a href={addressOfRow(row)}>{why}</a>}</span>
      <span className="find-snippet">
        <FoundText text={snippet} marks={marks} />
      </span>
    </li>
  );
}

function Entry({ entry }: { readonly entry: FoundEntry }) {
  const [first] = entry.places;
  if (first === undefined) return null;
  const more = entry.places.length - shownPlaces;
  return (
    <li className="find-entry">
      <h3 className="slab">
        <a href={addressOfRow({ ...first, page: undefined })}>{entry.title}</a>
      </h3>
      <ul>
        {entry.places.slice(0, shownPlaces).map((row) => (
          <Place key={`${row.edition} ${row.page} ${row.why} ${row.snippet}`} row={row} />
        ))}
      </ul>
      {more > 0 ? <p className="small pencil">and on {more} more of its pages</p> : null}
    </li>
  );
}

function Group({ group }: { readonly group: FoundGroup }) {
  return (
    <section className="find-group">
      <h2>{group.title}</h2>
      <ul>
        {group.entries.map((entry) => (
          <Entry key={entry.id} entry={entry} />
        ))}
      </ul>
    </section>
  );
}

function Nothing({ words }: { readonly words: string }) {
  return (
    <div className="empty">
      <h2>Nothing found for “{words}”</h2>
      <p>What to try:</p>
      <ul className="find-tips">
        <li>Fewer words, or only the beginning of one: “sept” finds septic.</li>
        <li>A number as printed, or only its last digits.</li>
        <li>A street, a name, a firm, an office.</li>
        <li>A photo or a scan without text in it is found by its title and by what you noted, not by what it shows.</li>
      </ul>
      <p>
        <a href={addressOf('papers')}>Look through all papers</a>
      </p>
    </div>
  );
}

/** What was found: papers with the pages the words stand on, errands, offices. */
export function FindScreen({ rest }: ScreenProps) {
  const words = (rest[0] ?? '').trim();
  const asked = useAnswer('find', words === '' ? undefined : { text: words, limit });
  if (words === '') {
    return (
      <header>
        <h1>Find</h1>
        <p className="lead">Type a paper, a number, an office or a word into the line above.</p>
      </header>
    );
  }
  return (
    <Answered of={asked}>
      {({ found }) => {
        const groups = groupFound(found);
        return (
          <>
            <header>
              <h1>{found.length === 0 ? 'Find' : `“${words}”`}</h1>
              {found.length === 0 ? null : (
                <p className="lead" role="status">
                  {countInWords(groups)}
                  {found.length < limit ? '' : ': the best of many; one more word narrows it down'}
                </p>
              )}
            </header>
            {found.length === 0 ? (
              <Nothing words={words} />
            ) : (
              groups.map((each) => <Group key={each.sort} group={each} />)
            )}
          </>
        );
      }}
    </Answered>
  );
}
