import type { OutcomeRecord } from "../../cohort/record.js";
import { describedRows } from "../cohort-table.js";
import type { ExactResults } from "../exact-results.js";
import { completenessOf, possibleDays } from "../follow-up.js";
import type { Plan } from "../plan.js";
import { daysOf } from "../question-of.js";
import { fieldGroups } from "./groupings.js";

type Lost = ExactResults["lost"];

/**
 * Who was lost, compared with who stayed, among all analysed injuries and within each first treatment: a description.
 *
 * Lost is who was last seen before the horizon and before the data were closed, with neither the milestone nor another
 * end. Groups with fewer lost or staying injuries than the study's smallest group are counted and not described: a
 * table of so few would tell of single persons.
 */
export function lostOf(records: readonly OutcomeRecord[], plan: Plan): Lost {
  const isLost = (record: OutcomeRecord) =>
    record.end === "censored" && record.time < possibleDays(record, plan);
  const groupings = fieldGroups(records, plan);
  const treatments = groupings.find(({ by }) => by === "first_treatment")?.groups ?? [];
  const compare = (by: string | null, group: string, own: readonly OutcomeRecord[]) =>
    comparedIn(
      { by, group, lost: own.filter(isLost), stayed: own.filter((record) => !isLost(record)) },
      plan,
    );
  const lost = records.filter(isLost).length;
  return {
    horizon_days: Math.round(daysOf(plan.horizon_weeks)),
    closing_day_known: plan.data.closed_on !== undefined,
    n: records.length,
    lost,
    share: records.length === 0 ? null : lost / records.length,
    completeness: completenessOf(records, plan),
    groupings: groupings.map(({ by, groups }) => ({
      by,
      groups: groups.map(({ label, records: own }) => {
        const lost = own.filter(isLost).length;
        return {
          label,
          n: own.length,
          lost,
          share: lost / own.length,
          completeness: completenessOf(own, plan),
        };
      }),
    })),
    compared: [
      compare(null, "all", records),
      ...treatments.map(({ label, records: own }) => compare("first_treatment", label, own)),
    ],
  };
}

interface Parted {
  readonly by: string | null;
  readonly group: string;
  readonly lost: readonly OutcomeRecord[];
  readonly stayed: readonly OutcomeRecord[];
}

function comparedIn({ by, group, lost, stayed }: Parted, { compare }: Plan): Lost["compared"][number] {
  const counts = { by, group, lost: lost.length, stayed: stayed.length };
  if (Math.min(lost.length, stayed.length) < compare.smallest_group)
    return { ...counts, rows: [], reason: "too-few-rows" };
  const groups = [
    { label: "lost", records: lost },
    { label: "stayed", records: stayed },
  ];
  const omitted = by === "first_treatment" ? "first_treatment" : null;
  const rows = describedRows({ groups, reference: "stayed" }, { omitted });
  return { ...counts, rows, reason: null };
}
