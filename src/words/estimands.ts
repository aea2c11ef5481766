import { labelOf } from "../schema/labels.js";
import type { Estimand, Results } from "../study/results.js";
import { gradeName } from "./curve-families.js";
import { firstOf } from "./first-treatment.js";
import { listed } from "./phrases.js";
import { endsCountAsNotBack, endsOf } from "./share-back.js";
import { clockWords, fieldWords, groupName } from "./terms.js";
import { weeks } from "./times.js";

type Plan = Results["plan"];

/** What the figures are, at the start of the line. */
const figures: Readonly<Record<Estimand["figure"], (plan: Plan) => string>> = {
  shares_and_times: () => "Share back by a day, day by which a share is back, and mean days not yet back",
  difference_of_shares: () => "Difference in the share back by a day",
  difference_of_mean_times: ({ horizon_weeks }) =>
    `Difference in the mean days not yet back, up to ${weeks(horizon_weeks)}`,
  hazard_ratio: () => "Ratio of the rates of return among those not yet back",
  shares_within: ({ main_landmark_weeks }) =>
    `Share back by ${weeks(main_landmark_weeks)}, its difference, and day by which half are back`,
  states_after_return: () => "Share back and not ruptured again by a day, and share ruptured again since",
};

const oneMix = ", both groups with the mix of these in both together";
/** How several strata make one figure. */
const mixOf: Readonly<Record<Estimand["figure"], string>> = {
  shares_and_times: oneMix,
  difference_of_shares: oneMix,
  difference_of_mean_times: oneMix,
  hazard_ratio: ", compared within each and taken to be the same in all",
  shares_within: "",
  states_after_return: "",
};

/** Of whom, with how many. */
function ofWhom({ figure, people, groups, by, strata_used }: Estimand, { within }: Results): string {
  const nameOf = (label: string): string =>
    by === "grade" ? gradeName(labelOf(label)) : groupName(label, by ?? "");
  const names = groups.map(({ label, n }) => (by === null ? String(n) : `${nameOf(label)}: ${n}`));
  const each = names.length === 0 ? "" : ` (${names.join(", ")})`;
  switch (people) {
    case "analysed":
      return `of all analysed injuries${each}`;
    case "grades":
      return `of the analysed injuries of each grade${each}`;
    case "compared":
      return `of the injuries in the groups compared, as they are${each}`;
    case "strata_used":
      return `of the injuries in the ${strata_used.length === 1 ? "stratum" : "strata"} ${listed(strata_used)}${each}${strata_used.length === 1 ? "" : mixOf[figure]}`;
    case "with_every_field":
      return `of the injuries in which everything adjusted for is recorded${each}`;
    case "definitions":
      return `of the injuries at sites that mean the same by the return, each definition by itself${each}`;
    case "within":
      return `of the injuries compared, each ${labelOf(within?.field ?? "")} by itself${each}`;
  }
}

function treatedHow({ by }: Estimand, { question, compare }: Plan): string | null {
  if (by !== "first_treatment") return null;
  return `by the first treatment (${firstOf(question.first_treatment, compare.groups)}), whatever came later`;
}

const atRisk: Readonly<Record<Estimand["at_risk_from"], string>> = {
  clock: "each followed from that day on",
  first_visit: "each followed from its first visit on",
  treatment: "each followed from the start of its treatment on",
};

function otherEnds({ competing_ends, competing_ends_are }: Estimand): string {
  switch (competing_ends_are) {
    case "none":
      return "no other end is named by the study file";
    case "not_back":
      return endsCountAsNotBack(competing_ends);
    case "supposed_away":
      return `as if nobody ${endsOf(competing_ends)}`;
    case "end_of_being_at_risk":
      return `whoever ${endsOf(competing_ends)} counts up to that day`;
    case "states":
      return `whoever ${endsOf(competing_ends)} counts among all, as neither`;
  }
}

const lost: Readonly<Record<Estimand["lost_are"], string>> = {
  like_those_followed: "those lost to follow-up are taken to be like those still followed",
};

const returns: Readonly<Record<Estimand["returns"], string | null>> = {
  days: null,
  spans: "returns between two days by a model",
};

/** What figures are figures of, in one line: of whom, treated how, counted from when, giving up counted how, lost counted how, adjusted for what. */
export function estimandWords(estimand: Estimand, results: Results): string {
  const { plan } = results;
  const { adjusted_for, counted_from, at_risk_from } = estimand;
  const clauses = [
    `${figures[estimand.figure](plan)}, ${ofWhom(estimand, results)}`,
    treatedHow(estimand, plan),
    `counted from ${clockWords[counted_from]}, ${atRisk[at_risk_from]}`,
    otherEnds(estimand),
    lost[estimand.lost_are],
    returns[estimand.returns],
    adjusted_for.length === 0 ? "adjusted for nothing" : `adjusted for ${listed(fieldWords(adjusted_for))}`,
  ];
  return `${clauses.filter((clause) => clause !== null).join("; ")}.`;
}

/** How a report calls an estimand: by its place in the list. */
export const estimandNumber = (id: string, { estimands }: Pick<Results, "estimands">): number | null => {
  const place = estimands.findIndex((one) => one.id === id);
  return place < 0 ? null : place + 1;
};
