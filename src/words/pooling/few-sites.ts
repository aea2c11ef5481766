/** From here on the spread between sites is known well enough to say no more of it. */
const enough = 10;

/** What so few sites can and cannot tell, in plain words; nothing where there are ten or more. */
export function fewSitesWords(sites: number): readonly string[] {
  if (sites >= enough) return [];
  if (sites === 0) return ["No site has an answer that could be pooled."];
  if (sites === 1)
    return ["One site: this is its own answer, and how far other sites lie from it cannot be seen."];
  if (sites === 2)
    return [
      "Two sites: how far sites lie apart rests on a single comparison, so the interval is wide and a further site cannot be foretold.",
    ];
  return [
    `${inWords[sites]} sites are few: how far sites lie apart is hardly known, whether these look alike or not.`,
  ];
}

const inWords: Readonly<Record<number, string>> = {
  3: "Three",
  4: "Four",
  5: "Five",
  6: "Six",
  7: "Seven",
  8: "Eight",
  9: "Nine",
};
