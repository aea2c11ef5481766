/** What a spreadsheet calls a column: A, B, ... Z, AA; from its place, counted from 0. */
export function columnLetters(place) {
    const letter = String.fromCharCode(65 + (place % 26));
    return place < 26 ? letter : columnLetters(Math.floor(place / 26) - 1) + letter;
}
