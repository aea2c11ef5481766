/** A unit as a reader says it after a number other than 1: the UCUM code "a" becomes "years". */
export const unitInWords = (code: string): string => words.get(code) ?? code;

const words: ReadonlyMap<string, string> = new Map(
  Object.entries({
    a: "years",
    mm: "millimetres",
    "0.1 mm": "tenths of a millimetre",
    m: "metres",
    in: "inches",
    cm: "centimetres",
    kg: "kilograms",
    g: "grams",
    lb: "pounds",
    N: "newtons",
    deg: "degrees",
    "h/d": "hours a day",
    "d/wk": "days a week",
    "{score}": "points",
  }),
);
