/** Words that make a printed owner more than persons joined by "and". */
const body = /\b(trust|trustees?|estate|llc|inc|corp|company|partnership|et al|heirs?)\b/i;

/**
 * The persons of a printed owner line, each exactly as printed: "A. Roe and B. Roe" is two.
 * @returns undefined where the line can't be taken apart surely: a comma, a trust, a firm.
 */
export function personsOf(printed: string): readonly string[] | undefined {
  if (body.test(printed) || printed.includes(',')) return undefined;
  const persons = printed
    .split(/\s+(?:and|&)\s+|\s*;\s*/i)
    .map((person) => person.trim())
    .filter((person) => person !== '');
  return persons.length === 0 ? undefined : persons;
}
