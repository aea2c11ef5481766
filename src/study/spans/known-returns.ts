import type { OutcomeRecord } from "../../cohort/record.js";
import { type GapWidths, gapWidths, type KeptFor } from "../../statistics/survival/between-visits/index.js";
import type { ExactResults } from "../exact-results.js";
import type { Grouping, Members } from "../groups.js";
import type { Specification } from "../specification.js";
import { type Reading, readingsOf } from "./readings.js";
import { spanColumnsOf } from "./span-columns.js";

type Known = ExactResults["known_returns"];
type Asked = Pick<Specification, "inexactReturns" | "landmarks" | "level" | "shareBack">;

/** Where more than this share of returns is known to a wide span only, or wide spans come to more than so many days a return: README.md. */
const enough = { share: 0.3, meanWide: 15 } as const;

/**
 * How exactly the returns are known, and whether they stay between two days or stand on one each.
 *
 * The rule: they stay between two days where more than three in ten are known to a span wider than 14 days only, or such spans come to more
 * than 15 days a return (see gapWidths). Measured beside days throughout, spans throughout and other thresholds, also under times of which no
 * law of the model is true (README.md).
 *
 * @param groupings everybody and the compared groups, with each return on one day
 */
export function knownReturnsOf(
  { all, compared }: Readonly<Record<"all" | "compared", Grouping>>,
  asked: Asked,
): Known {
  const records = all.groups.flatMap((group) => group.records);
  const { left, right, ends } = spanColumnsOf(records, asked);
  const { keepIntervals: _, because, ...widths } = gapWidths({ left, right, ends }, enough);
  const { groups, comparison } = widthsOfGroups(compared.groups, asked);
  const readings =
    widths.exact === widths.n
      ? []
      : [
          ...readingsOf(all, { ...asked, family: "all" }),
          ...readingsOf(compared, { ...asked, family: "compared" }),
        ];
  return {
    ...settled(because, asked),
    ...apartOf(readings),
    groups: [
      { family: "all", label: "all injuries", ...told(widths) },
      ...groups.map(({ label, own }) => ({ family: "compared" as const, label, ...told(own) })),
    ],
    comparison,
    readings,
  };
}

/** Whether the returns of some records stay between two days, by the same rule. */
export function pathOf(records: readonly OutcomeRecord[], asked: Asked): Known["path"] {
  const { left, right, ends } = spanColumnsOf(records, asked);
  return settled(gapWidths({ left, right, ends }, enough).because, asked).path;
}

const keptFor = { share: "wide_share", "mean-width": "wide_days" } as const;

function settled(
  because: readonly KeptFor[],
  { inexactReturns }: Pick<Asked, "inexactReturns">,
): Pick<Known, "path" | "because"> {
  if (inexactReturns === "as_spans") return { path: "spans", because: ["asked"] };
  if (inexactReturns === "on_one_day") return { path: "days", because: ["asked"] };
  return because.length > 0
    ? { path: "spans", because: because.map((why) => keptFor[why]) }
    : { path: "days", because: ["few_wide"] };
}

/** How much of a share the spans leave open, and how far days lie outside of that, at the landmark and in the group where it is most. */
function apartOf(readings: readonly Reading[]): Pick<Known, "most_open" | "most_moved"> {
  const apart = readings.flatMap(({ landmarks }) =>
    landmarks.flatMap(({ midpoint, alone: { lower, upper } }) =>
      midpoint.value === null || lower === null || upper === null
        ? []
        : [{ open: upper - lower, moved: Math.max(0, lower - midpoint.value, midpoint.value - upper) }],
    ),
  );
  const most = (of: "open" | "moved") =>
    apart.length === 0 ? null : apart.reduce((largest, one) => Math.max(largest, one[of]), 0);
  return { most_open: most("open"), most_moved: most("moved") };
}

const told = ({ n, exact, wide, wideShare, meanWide, median, largest }: GapWidths) => ({
  n,
  to_the_day: exact,
  narrow: n - exact - wide,
  wide,
  wide_share: wideShare,
  mean_wide_days: meanWide,
  median_days: median,
  largest_days: largest,
});

function widthsOfGroups(groups: readonly Members[], asked: Pick<Specification, "shareBack">) {
  const records = groups.flatMap((group) => group.records);
  const codes = groups.flatMap((group, code) => group.records.map(() => code));
  const { left, right, ends } = spanColumnsOf(records, asked);
  const found = gapWidths({ left, right, ends, groups: codes });
  const none = gapWidths({ left: [], right: [] });
  const { statistic, df, p, reason } = found.comparison;
  return {
    groups: groups.map(({ label }, code) => ({
      label,
      own: found.groups.find(({ group }) => group === code) ?? none,
    })),
    comparison: { statistic, degrees_of_freedom: df, p, reason },
  };
}
