import { visible } from "../../schema/words/wording.js";
import type { Harmonised } from "../../study/results-harmonised.js";
import type { SiteSummary } from "../summary/site-summary.js";
import { SummaryError } from "../summary/summary-error.js";

/**
 * Sites that mean different things by the return are not pooled unless their common study file says that they may be.
 *
 * @throws SummaryError naming what each site means
 */
export function refuseOtherMeanings(
  { stated }: Pick<Harmonised, "stated">,
  { question }: Pick<SiteSummary["agreed"]["file"], "question">,
): void {
  const meaning = stated.find(({ decides }) => decides);
  if (question.definitions === "may_differ" || meaning === undefined) return;
  if (meaning.verdict === "same" || meaning.verdict === "not_stated") return;
  throw new SummaryError(
    [
      "The sites do not mean the same by the return, or some do not state what they mean:",
      ...meaning.sites.map(
        ({ site, values }) =>
          `  ${visible(site, 200)}: ${values.length === 0 ? "not stated" : values.map((value) => `"${visible(value, 300)}"`).join(" and ")}`,
      ),
      "  Pool the sites that mean the same, have the others state it in their table of sites, or agree in the study file that they may be counted together (question: definitions: may_differ).",
    ].join("\n"),
  );
}
