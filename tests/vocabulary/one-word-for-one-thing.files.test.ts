import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const project = join(import.meta.dirname, '..', '..');

/** Words that were used for something that has a word already, and the one that stays. */
const others: readonly (readonly [RegExp, string])[] = [
  [/\bpartly passed\b/i, 'passed in part'],
  [/\b(failed inspection|inspection failed)\b/i, 'not passed'],
  [/\bnobody let them in\b/i, 'no access'],
  [/\bcalled off\b/i, 'cancelled'],
  [/\ba letter instead\b(?!:)/i, 'letter in lieu'],
  [/\bpassed, with corrections\b/i, 'passed with corrections'],
  [/\b(punch items?|remarks?) to answer\b/i, 'comments, of an office; corrections, of an inspection'],
  [/\b(expires?|expired|expiry)\b/i, 'lapses, lapsed'],
  [/\b(dismiss|snooze)\b(?! *[(:=,}])/i, 'put away'],
  [/\b(revert|roll ?back)\b/i, 'take back'],
  [/\b(checklist item|to-?do)\b/i, 'errand, need'],
];

/** What can reach a person: texts between quotes or tags; comments, names and imports left out. */
function said(source: string): readonly string[] {
  const code = source
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '')
    .replace(/^import .*$/gm, '');
  const texts = code.matchAll(/'([^'\n]*)'|`([^`]*)`|"([^"\n]*)"|>([^<>{}]+)</g);
  // A text of one word is a key or an id as a rule; what a person reads has a blank in it.
  return [...texts].map((one) => (one[1] ?? one[2] ?? one[3] ?? one[4] ?? '').trim()).filter((text) => / /.test(text));
}

it('one thing has one word in window, terminal and sheets', () => {
  const files = ['renderer', 'core', 'electron', 'templates/wording'].flatMap((room) =>
    readdirSync(join(project, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.(ts|tsx|json)$/.test(name) && !/package\.json|allowed-advisories/.test(name))
      .map((name) => join(room, name))
      // What is looked for on papers of others is in their words.
      .filter((name) => !name.startsWith(join('core', 'intake', 'reading'))),
  );
  expect(files.length).toBeGreaterThan(500);
  const found = files.flatMap((file) =>
    said(readFileSync(join(project, file), 'utf8')).flatMap((text) =>
      others.filter(([wrong]) => wrong.test(text)).map(([, right]) => `${file}: "${text}" is called: ${right}`),
    ),
  );
  expect(found).toEqual([]);
});
