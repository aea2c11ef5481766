import type { CurveFamily, KnownReturns, Results } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type Reading = KnownReturns["readings"][number];
type TimeRatio = NonNullable<CurveFamily["model"]>["time_ratios"][number];
type OfReading = ParentAndChild<Reading, Reading["landmarks"][number]>;

/** How exactly returns are known, shares with each return on several days, and the models where there are any. */
export function knownTables({ known_returns: known, curves }: Results): FlatTable[] {
  return [
    flatTable("how-returns-are-known", {
      things: known.groups,
      columns: {
        family: ({ family }) => family,
        group: ({ label }) => label,
        returns: ({ n }) => n,
        to_the_day: ({ to_the_day }) => to_the_day,
        up_to_14_days: ({ narrow }) => narrow,
        wider: ({ wide }) => wide,
        share_wider: ({ wide_share }) => wide_share,
        mean_wide_days: ({ mean_wide_days }) => mean_wide_days,
        median_days: ({ median_days }) => median_days,
        largest_days: ({ largest_days }) => largest_days,
        figures_from: () => known.path,
      },
    }),
    flatTable("shares-by-reading", {
      things: unfold(known.readings, ({ landmarks }) => landmarks),
      columns: {
        family: ({ parent }) => parent.family,
        group: ({ parent }) => parent.label,
        week: ({ child }) => child.week,
        day: ({ child }) => child.day,
        ...estimateColumns<OfReading>("earliest", ({ child }) => child.earliest),
        ...estimateColumns<OfReading>("midpoint", ({ child }) => child.midpoint),
        ...estimateColumns<OfReading>("latest", ({ child }) => child.latest),
        alone_lower: ({ child }) => child.alone.lower,
        alone_upper: ({ child }) => child.alone.upper,
      },
    }),
    ...modelTables(curves),
  ];
}

/** Laws with their AIC, and what the spans alone leave open; none where every return stands on a day. */
function modelTables(curves: readonly CurveFamily[]): FlatTable[] {
  const families = curves.filter(({ model }) => model !== null);
  if (families.length === 0) return [];
  const alone = families.flatMap((family) => family.curves).filter((curve) => curve.alone !== null);
  return [
    flatTable("laws", {
      things: unfold(families, ({ model }) => model!.laws),
      columns: {
        family: ({ parent }) => parent.family,
        groups: ({ parent }) => parent.curves.map(({ label }) => label).join("; "),
        law: ({ child }) => child.law,
        aic: ({ child }) => child.aic,
        chosen: ({ parent, child }) => (child.law === parent.model!.law ? "yes" : "no"),
        form: ({ parent }) => parent.model!.form,
      },
    }),
    flatTable("time-ratios", {
      things: unfold(families, ({ model }) => model!.time_ratios),
      columns: {
        family: ({ parent }) => parent.family,
        compared: ({ child }) => child.compared,
        reference: ({ child }) => child.reference,
        ...estimateColumns<ParentAndChild<CurveFamily, TimeRatio>>("time_ratio", ({ child }) => child.ratio),
        p: ({ child }) => child.p,
      },
    }),
    flatTable("shares-without-a-model", {
      things: unfold(alone, (curve) => curve.alone!.bounds),
      columns: {
        family: ({ parent }) => parent.family,
        group: ({ parent }) => parent.label,
        from_day: ({ child }) => child.day,
        lower: ({ child }) => child.lower,
        upper: ({ child }) => child.upper,
      },
    }),
  ];
}
