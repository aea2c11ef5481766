import type { Finding } from "../tally.js";
import { chanceOf } from "./chance.js";
import type { Program } from "./program.js";
import { readerText } from "./reader-text.js";
import { resultsOfFiles } from "./results-of-files.js";
import { type About, figuresRead } from "./sentences.js";
import { drawFiles } from "./tables.js";
import { halfBackOn, mainLandmark, meanDays, type Truth, trueCurve, trueWell } from "./truth.js";

const percent = 100;

/** One cohort, from its files to the words of its report, and each printed figure beside the truth of which it speaks. */
export function judged(
  program: Program,
  { n, stream, truth }: { readonly n: number; readonly stream: number; readonly truth: Truth },
): readonly Finding[] {
  const files = drawFiles(program, { n, chance: chanceOf(program.name, { n, stream }) });
  return figuresRead(readerText(resultsOfFiles(files)))
    .filter(({ about }) => about.what !== "rate of new ruptures" || program.newRuptures > 0)
    .map(({ name, about, value, lower, upper }) => ({
      kind: "interval",
      name,
      truth: truthAbout(about, truth),
      value,
      lower,
      upper,
    }));
}

/** The truth in the unit in which it is printed; infinite for half of a group of whom fewer are ever back. */
function truthAbout(about: About, truth: Truth): number {
  switch (about.what) {
    case "share back":
      return percent * trueCurve(truth, about.treatment, about.of)[mainLandmark]!;
    case "half back":
      return halfBackOn(trueCurve(truth, about.treatment, about.of)) ?? Number.POSITIVE_INFINITY;
    case "difference of shares":
      return percent * ofBoth(truth, about.of, (curve) => curve[mainLandmark]!);
    case "difference of mean days":
      return ofBoth(truth, about.of, meanDays);
    case "well":
      return percent * trueWell(truth, about.treatment, about.when);
    case "rate of new ruptures":
      return truth.ruptureRate;
  }
}

/** Ring less tape. */
const ofBoth = (
  truth: Truth,
  of: Parameters<typeof trueCurve>[2],
  figure: (curve: readonly number[]) => number,
): number => figure(trueCurve(truth, "ring", of)) - figure(trueCurve(truth, "tape", of));
