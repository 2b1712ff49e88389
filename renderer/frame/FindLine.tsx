import { useRef, useState } from 'react';
import { go, usePlace } from '../state/place.ts';

/** One permanent line: find a paper, number, office or word. "/" brings you here from anywhere. */
export function FindLine() {
  const { screen, rest } = usePlace();
  const [text, setText] = useState(screen === 'find' ? (rest[0] ?? '') : '');
  const input = useRef<HTMLInputElement>(null);
  return (
    <search className="find-line">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (text.trim() !== '') go('find', text.trim());
        }}
      >
        <label className="unseen" htmlFor="find">
          Find a paper, number, office or word
        </label>
        <input
          id="find"
          ref={input}
          type="search"
          value={text}
          placeholder="Find a paper, number, office or word"
          aria-keyshortcuts="/"
          onChange={({ target }) => setText(target.value)}
        />
      </form>
    </search>
  );
}
