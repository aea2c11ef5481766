import type { OtherReading, Results, TrialGroup } from "../../study/results.js";
import { type TrialRow, trialRows } from "../../words/target-trial/rows.js";
import { estimateColumns } from "./curves.js";
import { type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type Difference = ParentAndChild<OtherReading, OtherReading["differences"][number]>;

const kinds = (counted: TrialGroup["before"]): string =>
  counted.map(({ code, n }) => `${code}=${n}`).join("|");

/** The target trial in words; when treatments began and what came before and after; other rules of the first treatment. */
export const trialTables = (results: Results): FlatTable[] =>
  results.target_trial === null ? [] : tablesOf(results, results.target_trial);

const tablesOf = (results: Results, trial: NonNullable<Results["target_trial"]>): FlatTable[] => [
  flatTable("target-trial", {
    things: trialRows(results),
    columns: {
      part: ({ part }: TrialRow) => part,
      in_this_study: ({ emulated }: TrialRow) => emulated,
      falls_short: ({ falls_short }: TrialRow) => falls_short.join(" "),
    },
  }),
  flatTable("first-treatments", {
    things: trial.groups,
    columns: {
      group: ({ label }: TrialGroup) => label,
      injuries: ({ n }: TrialGroup) => n,
      began_by_day_0: ({ began_by_day_0 }: TrialGroup) => began_by_day_0,
      began_later: ({ began_later }: TrialGroup) => began_later,
      median_days: ({ median_days }: TrialGroup) => median_days,
      longest_days: ({ longest_days }: TrialGroup) => longest_days,
      had_another_before: ({ had_another_before }: TrialGroup) => had_another_before,
      before: ({ before }: TrialGroup) => kinds(before),
      before_not_known: ({ before_not_known }: TrialGroup) => before_not_known,
      went_on: ({ went_on }: TrialGroup) => went_on,
      later: ({ later }: TrialGroup) => kinds(later),
      lost: ({ lost }: TrialGroup) => lost,
    },
  }),
  flatTable("first-treatments-other-readings", {
    things: unfold(trial.other_readings, ({ differences }) => differences),
    columns: {
      first_treatment: ({ parent }: Difference) => parent.first_treatment,
      compared: ({ child }: Difference) => child.compared,
      reference: ({ child }: Difference) => child.reference,
      adjusted_for: ({ child }: Difference) => child.adjusted_for.join("|"),
      n_compared: ({ child }: Difference) => child.n.compared,
      n_reference: ({ child }: Difference) => child.n.reference,
      ...estimateColumns<Difference>("returned_difference", ({ child }) => child.returned),
    },
  }),
];
