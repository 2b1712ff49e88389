import sheets from '../../templates/wording/sheets.json' with { type: 'json' };

/** The words of the sheets the program writes: plain, short, second person. They stand in templates/, as data. */
export const wording = sheets;
