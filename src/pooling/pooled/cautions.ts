import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteSummary } from "../summary/site-summary.js";
import type { PooledAnswer, PoolingCaution } from "./pooled-results.js";

/** With fewer sites than this neither the spread between sites nor why it is there can be told: common practice, no source. */
export const fewSites = 10;

/** A site with more than this part of the main answer is named: our choice. */
const heavyWeight = 0.5;

/** What a reader must know of the sites before the answer. */
export function cautionsOf(
  sites: readonly SiteSummary[],
  { harmonised, answers }: { readonly harmonised: Harmonised; readonly answers: readonly PooledAnswer[] },
): PoolingCaution[] {
  const names = sites.map(({ site }) => site);
  const meaning = harmonised.stated.find(({ decides }) => decides);
  const differ = <Value>(of: (summary: SiteSummary) => Value) => new Set(sites.map(of)).size > 1;
  const caution = (code: PoolingCaution["code"], holds: boolean, about: readonly string[] = names) =>
    holds && about.length > 0 ? [{ code, sites: [...about] }] : [];
  const pathsOf = ({ groups }: SiteSummary) => groups.find(({ family }) => family === "all")?.path;
  const main =
    answers.find(({ main, of, measure }) => main && of === "comparison" && measure === "share_back") ??
    answers.find(({ main, measure }) => main && measure === "share_back");
  const heavy = (main?.sites ?? []).filter(({ weight }) => weight > heavyWeight).map(({ site }) => site);
  return [
    ...caution("definitions-differ", meaning?.verdict === "differs" || meaning?.verdict === "not_in_words"),
    ...caution("definitions-not-stated", (meaning?.ask.length ?? 0) > 0, meaning?.ask),
    ...caution("schedules-unlike", harmonised.schedules.verdict === "unlike"),
    ...caution("losses-unlike", harmonised.losses.verdict === "unlike"),
    ...caution(
      "paths-differ",
      differ(pathsOf),
      sites.filter((one) => pathsOf(one) === "spans").map(({ site }) => site),
    ),
    ...caution(
      "versions-differ",
      differ(({ toolkit_version }) => toolkit_version),
    ),
    ...caution(
      "smallest-cells-differ",
      differ(({ small_cells: { choice, smallest } }) => `${choice} ${smallest}`),
    ),
    ...caution("few-sites", sites.length < fewSites),
    ...caution(
      "held-back",
      true,
      sites.filter(({ held_back }) => held_back.length > 0).map(({ site }) => site),
    ),
    ...caution("one-site-heavy", sites.length > 1, heavy),
  ];
}
