/**
 * A number with its noun in the right form.
 *
 * @param count a number, or a text that stands in the place of one, such as "[left out]"
 * @example counted(1, "row", "rows") // => "1 row"
 */
export const counted = (count: number | string, one: string, many: string): string =>
  `${count} ${String(count) === "1" ? one : many}`;
