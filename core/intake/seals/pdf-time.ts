/** "D:20260314150926-05'00'" (ISO 32000-1, 7.9.4) as an instant; undefined where it is none. */
export function instantOf(text: string): string | undefined {
  const found = /^D:(\d{4})(\d\d)?(\d\d)?(\d\d)?(\d\d)?(\d\d)?(?:([Zz+-])(?:(\d\d)'?(?:(\d\d)'?)?)?)?/.exec(text);
  if (found === null) return undefined;
  const [, year = '', month = '01', day = '01', hour = '00', minute = '00', second = '00', sign, h = '00', m = '00'] =
    found;
  const zone = sign === '+' || sign === '-' ? `${sign}${h}:${m}` : 'Z';
  const time = Date.parse(`${year}-${month}-${day}T${hour}:${minute}:${second}${zone}`);
  return Number.isFinite(time) ? new Date(time).toISOString() : undefined;
}
