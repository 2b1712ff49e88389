/** What linking leaves out, told beside the packet. */
const sentences = {
  'link left out': [
    'a link to a page that is not in this packet was dropped',
    'links to pages that are not in this packet were dropped',
  ],
  script: ['a script was dropped', 'scripts were dropped'],
  action: [
    'an active instruction (open a program, send a form, play something) was dropped',
    'active instructions (open a program, send a form, play something) were dropped',
  ],
  attachment: ['an attached file was dropped', 'attached files were dropped'],
  media: ['a film, sound or model was dropped', 'films, sounds or models were dropped'],
  'media picture': [
    'a film, sound or model was kept as a still picture',
    'films, sounds or models were kept as still pictures',
  ],
  signature: ['a signature field was kept as a picture only', 'signature fields were kept as pictures only'],
  'signature gone': [
    'a signature field without a picture was dropped',
    'signature fields without a picture were dropped',
  ],
  'form look': [
    'a filled-in field was drawn anew, because the form left that to the reader',
    'filled-in fields were drawn anew, because the form left that to the reader',
  ],
  'no look': [
    'a form field has no picture of its own and may look different',
    'form fields have no picture of their own and may look different',
  ],
} as const satisfies Record<string, readonly [string, string]>;

export type NoteSort = keyof typeof sentences;

/** Counts what happened per paper; the sentences come in the order of the papers and of the list above. */
export class LinkNotes {
  readonly #counts = new Map<string, Map<NoteSort, number>>();
  readonly #others: string[] = [];

  count(title: string, sort: NoteSort, times = 1): void {
    const counts = this.#counts.get(title) ?? new Map<NoteSort, number>();
    counts.set(sort, (counts.get(sort) ?? 0) + times);
    this.#counts.set(title, counts);
  }

  say(sentence: string): void {
    this.#others.push(sentence);
  }

  all(): readonly string[] {
    const told: string[] = [];
    for (const [title, counts] of this.#counts) {
      for (const [sort, times] of counts) {
        const [one, many] = sentences[sort];
        told.push(`${title}: ${times === 1 ? one : `${times} ${many}`}.`);
      }
    }
    return [...told, ...this.#others];
  }
}
