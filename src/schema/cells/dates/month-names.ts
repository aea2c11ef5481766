/**
 * Names of the months in English, German, French, Spanish and Italian, as any general dictionary has them, without
 * accents; German also as in Austria, and the abbreviation that is no beginning of a name.
 */
const names: readonly (readonly string[])[] = [
  ["january", "januar", "janner", "janvier", "enero", "gennaio"],
  ["february", "februar", "feber", "fevrier", "febrero", "febbraio"],
  ["march", "marz", "mrz", "mars", "marzo"],
  ["april", "avril", "abril", "aprile"],
  ["may", "mai", "mayo", "maggio"],
  ["june", "juni", "juin", "junio", "giugno"],
  ["july", "juli", "juillet", "julio", "luglio"],
  ["august", "aout", "agosto"],
  ["september", "septembre", "septiembre", "setiembre", "settembre"],
  ["october", "oktober", "octobre", "octubre", "ottobre"],
  ["november", "novembre", "noviembre"],
  ["december", "dezember", "decembre", "diciembre", "dicembre"],
];

const shortest = 3;

/** Letters as they are compared: small, without accents and full stops. */
export const plainLetters = (text: string): string =>
  text
    .normalize("NFKD")
    .replaceAll(/\p{M}+/gu, "")
    .replaceAll(".", "")
    .toLowerCase();

/**
 * The month, 1 to 12, of a name or of its first letters, three or more; null where it is none, or could be two
 * (`jui`, juin or juillet).
 *
 * @example
 * monthNamed("Mär.") // => 3
 */
export function monthNamed(text: string): number | null {
  const letters = plainLetters(text);
  if (letters.length < shortest) return null;
  const months = names.flatMap((spellings, place) =>
    spellings.some((name) => name.startsWith(letters)) ? [place + 1] : [],
  );
  return months.length === 1 ? months[0]! : null;
}
