import type { Practice } from '../../../core/vocabulary/practice.ts';
import type { Chance } from '../../intake/fuzz/chance.ts';

const perField = 40;
const rowIdForm = /^[a-z]-[0-9a-z]{16}$/;

/**
 * What the desk itself said so far, by the field it stood in: ids of rows, errands, kinds, titles, tickets. Whoever
 * asks with these gets past the door.
 */
export class KnownWords {
  readonly #byField = new Map<string, string[]>();
  readonly #fields: string[] = [];
  /** Ids of rows by their first letter, which tells the sort of row. */
  readonly #ids = new Map<string, string[]>();

  clear(): void {
    this.#byField.clear();
    this.#fields.length = 0;
    this.#ids.clear();
  }

  /** An id of a row of that sort. */
  id(letter: string, chance: Chance): string | undefined {
    const ids = this.#ids.get(letter);
    return ids === undefined ? undefined : chance.of(ids);
  }

  note(field: string, word: string): void {
    if (rowIdForm.test(word)) this.#noteId(word);
    let words = this.#byField.get(field);
    if (words === undefined) {
      words = [];
      this.#byField.set(field, words);
      this.#fields.push(field);
    }
    if (words.length < perField) words.push(word);
    else words[word.length % perField] = word;
  }

  #noteId(id: string): void {
    const letter = id.slice(0, 1);
    const ids = this.#ids.get(letter) ?? [];
    this.#ids.set(letter, ids);
    if (ids.includes(id)) return;
    if (ids.length === perField) ids.shift();
    ids.push(id);
  }

  /** What the practice knows by id: errands, kinds, offices, questions, events, holds, and the rules one may amend. */
  learnPractice({ errands, papers, offices, questions, events, holds }: Practice): void {
    const maps = { errand: errands, kind: papers, office: offices, question: questions, event: events, hold: holds };
    for (const [field, map] of Object.entries(maps)) for (const id of Object.keys(map)) this.note(field, id);
    for (const { id, needs } of Object.values(errands)) {
      this.note('rule', `errands.${id}.fee`);
      for (const need of needs) this.note('rule', `errands.${id}.needs.${need.id}.copies`);
    }
  }

  /** Takes note of every short text of an answer, as deep as it goes. */
  learn(answer: unknown, field = 'answer', depth = 0): void {
    if (typeof answer === 'string') {
      if (answer.length > 0 && answer.length <= 100) this.note(field, answer);
      return;
    }
    if (typeof answer !== 'object' || answer === null || depth > 6) return;
    if (Array.isArray(answer)) {
      for (const each of answer.slice(0, 30)) this.learn(each, field, depth + 1);
      return;
    }
    for (const [key, value] of Object.entries(answer)) this.learn(value, key, depth + 1);
  }

  /** A word of one of the fields, in that order of liking, or of any. */
  of(fields: readonly string[], chance: Chance): string | undefined {
    const liked = fields.filter((field) => this.#byField.has(field));
    const field = liked.length > 0 && chance.below(12) > 0 ? chance.of(liked) : undefined;
    const from = this.#byField.get(field ?? (this.#fields.length > 0 ? chance.of(this.#fields) : ''));
    return from === undefined ? undefined : chance.of(from);
  }
}
