import papers from '../../templates/wording/papers.json' with { type: 'json' };

/** The standing words of the papers the program writes outside a packet. They stand in templates/, as data. */
export const paperWording = papers;
