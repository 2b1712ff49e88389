import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import type { ScreenProps } from '../screen-props.ts';
import { FoundThing } from './FoundThing.tsx';
import { countInWords, type FoundGroup, groupFound } from './group-found.ts';
import './find.css';

/** More than anybody reads; asking for more words is the better way on. */
const limit = 60;
function Group({ group }: { readonly group: FoundGroup }) {
  return (
    <section className="find-group">
      <h2>{group.title}</h2>
      <ul>
        {group.entries.map((entry) => (
          <FoundThing key={entry.id} entry={entry} />
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
        <li>A street, a name, a firm, an office, a word they said when you were there.</li>
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
  const papers = useAnswer('papers', { wanted: true }).answer?.papers ?? [];
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
        const groups = groupFound(found, papers);
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
