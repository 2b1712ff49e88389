/** Parts that have no other name than the place they stand in, and never change it: cells of a row, sheets of a file. */
export function inPlace<T>(parts: readonly T[]): readonly { readonly part: T; readonly place: number }[] {
  return parts.map((part, place) => ({ part, place }));
}
