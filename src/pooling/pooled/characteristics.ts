import type { SiteDescription } from "../description/index.js";
import type { Characteristic, SiteCharacteristic } from "./pooled-results.js";

interface Known {
  readonly unit: SiteCharacteristic["unit"];
  /** A difference between sites that a reader can picture: lines are told by so much. */
  readonly step: number;
  readonly of: (description: SiteDescription) => number | null;
}

const severeGrades: ReadonlySet<string> = new Set(["3", "4a", "4b"]);

/** Of the injuries of known grade; null where a count is left out, or none is known. */
function severeShare({ fields }: SiteDescription): number | null {
  const counts = fields.find(({ field }) => field === "grade")?.counts ?? [];
  const graded = counts.filter(({ code }) => /^[1-4]/.test(code));
  let [severe, all] = [0, 0];
  for (const { code, n } of graded) {
    if (typeof n !== "number") return null;
    all += n;
    if (severeGrades.has(code)) severe += n;
  }
  return all === 0 ? null : severe / all;
}

/** 1 where people only come sent by others, 0 where they come otherwise as well; null where it is not stated. */
function bySending({ stated }: SiteDescription): number | null {
  const values = stated.find(({ field }) => field === "how_people_come")?.values ?? [];
  if (values.length !== 1) return null;
  return values[0] === "by_referral" ? 1 : 0;
}

const medianOf = ({ fields }: SiteDescription, name: string): number | null =>
  fields.find(({ field }) => field === name)?.numbers?.median ?? null;

/** What summaries hold of their sites that may go with what these find. */
const known: Readonly<Record<Characteristic, Known>> = {
  severe_share: { unit: "share", step: 0.1, of: severeShare },
  delay_days: { unit: "days", step: 7, of: (description) => medianOf(description, "delay_days") },
  sent_by_others: { unit: "yes or no", step: 1, of: bySending },
  days_between_visits: { unit: "days", step: 7, of: ({ schedule }) => schedule.days_between.median },
  follow_up_days: { unit: "days", step: 30, of: ({ follow_up_days }) => follow_up_days.value },
  lost_share: { unit: "share", step: 0.1, of: ({ loss }) => loss.share },
  wide_share: { unit: "share", step: 0.1, of: ({ returns }) => returns.wide_share },
};

/** Each characteristic with its value at every site, in the order of the sites. */
export const characteristicsOf = (
  sites: readonly { readonly site: string; readonly description: SiteDescription }[],
): SiteCharacteristic[] =>
  (Object.keys(known) as Characteristic[]).map((characteristic) => {
    const { unit, step, of } = known[characteristic];
    return {
      characteristic,
      unit,
      step,
      sites: sites.map(({ site, description }) => ({ site, value: of(description) })),
    };
  });
