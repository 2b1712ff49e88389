import type { FoundRow } from '../../../core/desk/contract/answers.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { markSays } from '../papers/state-words.ts';
import { FoundText } from './FoundText.tsx';
import { type FoundEntry, type FoundPlace, whyFound } from './group-found.ts';

/** Places shown of one thing before the rest is only counted. */
const shownPlaces = 4;

function addressOfRow({ sort, paper, edition, errand, subject, office, page }: FoundRow): string {
  if (sort === 'errand') return addressOf('errand', errand ?? '', ...(subject === undefined ? [] : [subject]));
  if (sort === 'office') return addressOf('offices', office ?? '');
  if (paper === undefined) return addressOf('papers');
  if (edition === undefined) return addressOf('papers', paper);
  return page === undefined ? addressOf('papers', paper, edition) : addressOf('papers', paper, edition, String(page));
}

function Place({ row }: { readonly row: FoundPlace }) {
  const { snippet, marks, page, older } = row;
  const why = whyFound(row);
  return (
    <li className="find-place">
      <span className="find-why small">
        {page === undefined ? why : <a href={addressOfRow(row)}>{why}</a>}
        {older === undefined ? '' : `, ${older}`}
      </span>
      <span className="find-snippet">
        <FoundText text={snippet} marks={marks} />
      </span>
    </li>
  );
}

/** One paper, errand or office that was found, with where the words stand. */
export function FoundThing({ entry }: { readonly entry: FoundEntry }) {
  const { places, title, paper } = entry;
  const [first] = places;
  if (first === undefined) return null;
  // Found by its title: the words are marked in the title itself, not repeated below it.
  const named = places.find(({ why, snippet }) => why === 'title' && snippet === title);
  const rest = places.filter((place) => place !== named);
  const more = rest.length - shownPlaces;
  return (
    <li className="find-entry">
      <div className="find-head">
        <h3 className="slab">
          <a href={addressOfRow({ ...first, page: undefined })}>
            {named === undefined ? title : <FoundText text={title} marks={named.marks} />}
          </a>
        </h3>
        <p className="small pencil">
          {named === undefined ? '' : `${whyFound(named)}`}
          {paper === undefined ? '' : `${named === undefined ? '' : ' · '}${paper.office}`}
        </p>
        {paper === undefined ? null : <Mark word={paper.state} say={markSays(paper)} />}
      </div>
      {rest.length === 0 ? null : (
        <ul>
          {rest.slice(0, shownPlaces).map((row) => (
            <Place key={`${row.edition} ${row.page} ${row.why} ${row.snippet}`} row={row} />
          ))}
        </ul>
      )}
      {more > 0 ? (
        <p className="small pencil find-more">
          and in {more} more {more === 1 ? 'place' : 'places'} of it
        </p>
      ) : null}
    </li>
  );
}
