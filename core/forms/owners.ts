/** Words that make a printed owner more than persons joined by "and". */
const body =
  /\b(?:trusts?|trustees?|estate|l\.?l\.?c|l\.?l\.?p|inc|incorporated|corp|corporation|co|company|ltd|limited|partners|partnership|et al|et ux|et vir|heirs?|church|association|foundation|bank|sons|daughters|brothers|husband|wife|spouses?)\b/i;

/** A first and a last name at least, letters in both: "John" and "J." are half of one. */
function isWhole(person: string): boolean {
  const words = person.split(/\s+/);
  const long = words.filter((word) => word.replace(/[^\p{L}]/gu, '').length > 1);
  return words.length > 1 && long.length > 0;
}

/**
 * The persons of a printed owner line, each exactly as printed: "A. Roe and B. Roe" is two.
 * @returns undefined where the line can't be taken apart surely: a comma, a trust, a firm, "John and Mary Roe".
 */
export function personsOf(printed: string): readonly string[] | undefined {
  if (body.test(printed) || printed.includes(',')) return undefined;
  const persons = printed
    .split(/\s+(?:and|&)\s+|\s*;\s*/i)
    .map((person) => person.trim())
    .filter((person) => person !== '');
  return persons.length > 0 && persons.every(isWhole) ? persons : undefined;
}
