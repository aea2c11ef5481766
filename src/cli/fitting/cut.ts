/** A text for a column of so many characters: a longer one loses its end. */
export const cut = (text: string, widest: number): string =>
  text.length > widest ? `${text.slice(0, widest - 1)}…` : text;
