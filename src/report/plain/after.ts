import { counted } from "../../schema/counted.js";
import type { AfterReturnGroup, Results } from "../../study/results.js";
import { isTold } from "../../words/counts.js";
import { wordsOfDefinition } from "../../words/definitions.js";
import { intervalName } from "../../words/estimates.js";
import { groupWords } from "../../words/group-phrases.js";
import { listed } from "../../words/phrases.js";
import { digitsOf, limits } from "../../words/units.js";

/** Whether returns lasted, in the first sentences whenever one did not. */
export function afterSentences(results: Results): string[] {
  const groups = results.after_return?.groups ?? [];
  return groups
    .filter(({ family, ruptured_again }) => family !== "compared" && isTold(ruptured_again, (n) => n > 0))
    .map((group) => lastingSentence(group, results));
}

function lastingSentence(all: AfterReturnGroup, { after_return: after, definitions, plan }: Results): string {
  const whose = all.family === "definition" ? ` ${wordsOfDefinition(all.label, { definitions }).of}` : "";
  const compared = after!.groups.filter(({ family, returned }) => family === "compared" && returned !== 0);
  const parts = compared.map((group) => partOf(group, plan.compare.by));
  const { value, lower, upper } = all.rate;
  const rateWords = `${digitsOf(value ?? 0, { unit: "rate" })} (${intervalName(plan.confidence_level)} ${limits({ lower: lower ?? 0, upper: upper ?? 0 }, "rate")})`;
  return (
    `Not every return lasted: of ${counted(all.returned, "injury", "injuries")}${whose} that were back${definitions === null ? "" : " as their sites define it"}, ${all.ruptured_again} ruptured again, ` +
    `at a rate of ${rateWords} in 100 months of follow-up after a return` +
    `${parts.length > 1 ? `: ${listed(parts)}` : ""}.`
  );
}

const partOf = ({ label, returned, ruptured_again }: AfterReturnGroup, by: string): string =>
  `${ruptured_again} of ${returned} ${groupWords({ by, label }).among}`;
