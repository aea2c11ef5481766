/** Widths in parts of the font size, rounded up from the bundled sans serif; what is not listed counts as the widest. */
const widths: readonly (readonly [string, number])[] = [
  ["iljI|.,:;'! \u00a0", 0.31],
  ["()[]ftr/", 0.39],
  ['-*1"', 0.51],
  ["acehknsuvxyzEFJL?", 0.61],
  ["bdgopq023456789Z+\u2212=<>_\u2013\u201c\u201d", 0.67],
  ["ABKPRSTVXY&#", 0.7],
  ["CDGHNOQUw", 0.83],
  ["mM", 0.92],
];
const widthOf = new Map(
  widths.flatMap(([characters, width]) => [...characters].map((c) => [c, width] as const)),
);
const widest = 1.05;
const boldness = 1.08;

/** An upper estimate of a text's width in pixels, good enough to break lines and set margins without the font. */
export function roughWidth(text: string, size: number, weight: "normal" | "bold" = "normal"): number {
  let ems = 0;
  for (const character of text) ems += widthOf.get(character) ?? widest;
  return ems * size * (weight === "bold" ? boldness : 1);
}

/** Breaks a text into lines no wider than `width` pixels, at blanks where there are any, inside a word where not. */
export function lines(text: string, { width, size, weight = "normal" }: LineOptions): readonly string[] {
  const fits = (candidate: string) => roughWidth(candidate, size, weight) <= width;
  const broken: string[] = [];
  for (const word of text.split(" ")) {
    const last = broken.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) broken[broken.length - 1] = `${last} ${word}`;
    else broken.push(...pieces(word, fits));
  }
  return broken;
}

export interface LineOptions {
  readonly width: number;
  readonly size: number;
  readonly weight?: "normal" | "bold";
}

function pieces(word: string, fits: (candidate: string) => boolean): string[] {
  const found = [""];
  for (const character of word) {
    const grown = found.at(-1)! + character;
    if (fits(grown) || found.at(-1) === "") found[found.length - 1] = grown;
    else found.push(character);
  }
  return found;
}
