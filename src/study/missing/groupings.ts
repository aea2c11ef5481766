import type { OutcomeRecord } from "../../cohort/record.js";
import { groupValue, type Members } from "../groups.js";
import type { Comparable } from "../plan.js";
import type { Specification } from "../specification.js";

/** Records of one field's groups, all of them: what is not recorded is a group as well. */
export interface FieldGroups {
  readonly by: Comparable;
  readonly groups: readonly Members[];
}

/**
 * The analysed injuries by first treatment, by site where there are several, and by the field that the study compares
 * by; the groups that are compared come first, in their order.
 */
export function fieldGroups(
  records: readonly OutcomeRecord[],
  compared: Pick<Specification["comparison"], "by" | "labels">,
): readonly FieldGroups[] {
  const fields = [...new Set<Comparable>(["first_treatment", compared.by, "site_id"])];
  return fields
    .map((by) => ({ by, groups: groupsBy(records, by, by === compared.by ? compared.labels : []) }))
    .filter(({ by, groups }) => by !== "site_id" || groups.length > 1);
}

function groupsBy(
  records: readonly OutcomeRecord[],
  by: Comparable,
  first: readonly string[],
): readonly Members[] {
  const members = new Map<string, OutcomeRecord[]>(first.map((label) => [label, []]));
  const without = "not_recorded";
  for (const record of records) {
    const label = groupValue(record, by) ?? without;
    const group = members.get(label);
    if (group === undefined) members.set(label, [record]);
    else group.push(record);
  }
  const others = [...members.keys()].filter((label) => !first.includes(label) && label !== without).sort();
  const order = [...first, ...others, ...(members.has(without) ? [without] : [])];
  return order
    .map((label) => ({ label, records: members.get(label)! }))
    .filter((group) => group.records.length > 0);
}
