import { type GapWidths, gapWidths } from "../../statistics/survival/between-visits/index.js";
import type { ExactResults } from "../exact-results.js";
import type { Grouping, Members } from "../groups.js";
import type { InexactReturns } from "../plan.js";
import type { Path } from "../results-known.js";
import type { Specification } from "../specification.js";
import { type Reading, readingsOf } from "./readings.js";
import { spanColumnsOf } from "./span-columns.js";

type Known = ExactResults["known_returns"];
type Asked = Pick<Specification, "inexactReturns" | "landmarks" | "level" | "shareBack">;
type Settled = Pick<Known, "path" | "because" | "most_open" | "most_moved">;

/** A share at a landmark of which the spans leave more than this open cannot be read off days. */
const openEnough = 0.1;
/** Nor one that midpoints move by more than this out of what the spans leave open. */
const movedEnough = 0.03;
/** Wide spans are most of all from this share on. */
const mostWide = 0.5;
/** In a small group this many injuries weigh more, and chance places one or the other. */
const injuriesEnough = 2;

/**
 * How exactly the returns are known, and whether they stay between two days or stand on one each.
 *
 * The rule: they stay between two days where more than one in ten spans is wider than 14 days, or such spans come to more than 3 days a return
 * (see gapWidths), and days would tell something else than the data: at a landmark the estimate without a model leaves more than 10
 * percentage points open, or midpoints move the share by more than 3 out of it, both by more than two injuries. Where more than half of
 * the spans are wide they do so in any case, since an estimate without a model then leans on single visits. Few wide spans alone decide
 * nothing: with enough days known among them the data settle every share without a model, whose law would do more harm than midpoints.
 *
 * @param groupings everybody and the compared groups, with each return on one day
 */
export function knownReturnsOf(
  { all, compared }: Readonly<Record<"all" | "compared", Grouping>>,
  asked: Asked,
): Known {
  const records = all.groups.flatMap((group) => group.records);
  const { left, right, ends } = spanColumnsOf(records, asked);
  const { keepIntervals, because: _, ...widths } = gapWidths({ left, right, ends });
  const { groups, comparison } = widthsOfGroups(compared.groups, asked);
  const readings =
    widths.exact === widths.n
      ? []
      : [
          ...readingsOf(all, { ...asked, family: "all" }),
          ...readingsOf(compared, { ...asked, family: "compared" }),
        ];
  return {
    ...settled({ readings, isWide: keepIntervals, isMost: (widths.wideShare ?? 0) > mostWide }, asked),
    groups: [
      { family: "all", label: "all injuries", ...told(widths) },
      ...groups.map(({ label, own }) => ({ family: "compared" as const, label, ...told(own) })),
    ],
    comparison,
    readings: readings.map(({ n: _n, ...reading }) => reading),
  };
}

function settled(
  {
    readings,
    isWide,
    isMost,
  }: { readonly readings: readonly Reading[]; readonly isWide: boolean; readonly isMost: boolean },
  { inexactReturns }: Pick<Asked, "inexactReturns">,
): Settled {
  const apart = readings.flatMap(({ n, landmarks }) =>
    landmarks.flatMap(({ midpoint, alone: { lower, upper } }) =>
      midpoint.value === null || lower === null || upper === null
        ? []
        : [{ n, open: upper - lower, moved: Math.max(0, lower - midpoint.value, midpoint.value - upper) }],
    ),
  );
  const most = (of: "open" | "moved") =>
    apart.length === 0 ? null : apart.reduce((largest, one) => Math.max(largest, one[of]), 0);
  const isBeyond = (of: "open" | "moved", enough: number) =>
    apart.some((one) => one[of] > Math.max(enough, injuriesEnough / one.n));
  const why: Known["because"] = [
    ...(isMost ? (["mostly_wide"] as const) : []),
    ...(isBeyond("open", openEnough) ? (["left_open"] as const) : []),
    ...(isBeyond("moved", movedEnough) ? (["midpoints_off"] as const) : []),
  ];
  const byRule: { path: Path; because: Known["because"] } =
    isWide && why.length > 0
      ? { path: "spans", because: why }
      : { path: "days", because: [isWide ? "days_settle_it" : "few_wide"] };
  const choices: Readonly<Record<InexactReturns, typeof byRule>> = {
    by_rule: byRule,
    as_spans: { path: "spans", because: ["asked"] },
    on_one_day: { path: "days", because: ["asked"] },
  };
  return { ...choices[inexactReturns], most_open: most("open"), most_moved: most("moved") };
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
