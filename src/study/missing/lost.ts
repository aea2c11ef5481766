import type { OutcomeRecord } from "../../cohort/record.js";
import { describedRows } from "../cohort-table.js";
import type { ExactResults } from "../exact-results.js";
import { completenessOf, possibleDays } from "../follow-up.js";
import type { Specification } from "../specification.js";
import { fieldGroups } from "./groupings.js";

type Lost = ExactResults["lost"];

/**
 * Who was lost, compared with who stayed, among all analysed injuries and within each first treatment: a description.
 *
 * Lost is who was last seen before the horizon and before the data were closed, with neither the milestone nor another
 * end. Groups with fewer lost or staying injuries than the study's smallest group are counted and not described: a
 * table of so few would tell of single persons.
 */
export function lostOf(
  records: readonly OutcomeRecord[],
  { comparison, ...bounds }: Pick<Specification, "comparison" | "horizonDay" | "question">,
): Lost {
  const isOut = (record: OutcomeRecord) => isLost(record, bounds);
  const groupings = fieldGroups(records, comparison);
  const treatments = groupings.find(({ by }) => by === "first_treatment")?.groups ?? [];
  const compare = (by: string | null, group: string, own: readonly OutcomeRecord[]) =>
    comparedIn(
      { by, group, lost: own.filter(isOut), stayed: own.filter((record) => !isOut(record)) },
      comparison.smallestGroup,
    );
  const lost = records.filter(isOut).length;
  return {
    horizon_days: bounds.horizonDay,
    closing_day_known: bounds.question.closedOn !== null,
    n: records.length,
    lost,
    share: records.length === 0 ? null : lost / records.length,
    completeness: completenessOf(records, bounds),
    groupings: groupings.map(({ by, groups }) => ({
      by,
      groups: groups.map(({ label, records: own }) => {
        const lost = own.filter(isOut).length;
        return {
          label,
          n: own.length,
          lost,
          share: lost / own.length,
          completeness: completenessOf(own, bounds),
        };
      }),
    })),
    compared: [
      compare(null, "all", records),
      ...treatments.map(({ label, records: own }) => compare("first_treatment", label, own)),
    ],
  };
}

/** Last seen before the horizon and before the data were closed, with neither the milestone nor another end. */
export const isLost = (
  record: OutcomeRecord,
  bounds: Pick<Specification, "horizonDay" | "question">,
): boolean => record.end === "censored" && record.time < possibleDays(record, bounds);

interface Parted {
  readonly by: string | null;
  readonly group: string;
  readonly lost: readonly OutcomeRecord[];
  readonly stayed: readonly OutcomeRecord[];
}

function comparedIn({ by, group, lost, stayed }: Parted, smallest: number): Lost["compared"][number] {
  const counts = { by, group, lost: lost.length, stayed: stayed.length };
  if (Math.min(lost.length, stayed.length) < smallest) return { ...counts, rows: [], reason: "too-few-rows" };
  const groups = [
    { label: "lost", records: lost },
    { label: "stayed", records: stayed },
  ];
  const omitted = by === "first_treatment" ? "first_treatment" : null;
  const rows = describedRows({ groups, reference: "stayed" }, { omitted });
  return { ...counts, rows, reason: null };
}
