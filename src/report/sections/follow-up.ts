import { intervalName, intervalWords } from "../../words/estimates.js";
import { plainNumber, share } from "../../words/numbers.js";
import { capital } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { competingVerb, milestoneWords, sayKnown } from "../../words/terms.js";
import { days, weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { caution } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";

/** What day 0 is, after "first and last". */
const dayZeroNoun: Readonly<Record<ReportContext["results"]["plan"]["question"]["clock"], string>> = {
  injury: "injury",
  first_visit: "first visit",
  treatment_start: "start of a first treatment",
};

/** How long, how completely, how it ended, and how exactly the returns are known. */
export function followUpSection({ results }: ReportContext): Section {
  const { follow_up, plan } = results;
  const { median_days: median, completeness, whole_weeks } = follow_up;
  const interval = intervalWords(median, "time");
  const medianWords =
    median.value !== null
      ? days(median.value)
      : median.reason === "not-reached"
        ? "not reached: most returned before their follow-up could end"
        : reasonWords(median.reason);
  const { recruited, not_back_days: notBack, person_months: months } = follow_up;
  const long: Row[] = [
    ...(recruited === null
      ? []
      : [[`First and last ${dayZeroNoun[plan.question.clock]}`, `${recruited.from} to ${recruited.to}`]]),
    ["Person-months at risk", months === null ? reasonWords(null) : plainNumber(months, 1)],
    ...(notBack === null
      ? []
      : [["Days followed, of those not back", `${notBack.shortest} to ${notBack.longest}`]]),
    ["Median follow-up", medianWords],
    [`${capital(intervalName(plan.confidence_level))} of the median`, interval === "" ? "\u2013" : interval],
    [
      `Completeness up to ${weeks(plan.horizon_weeks)} (observed over possible time)`,
      completeness === null ? reasonWords(null) : share(completeness),
    ],
  ];
  const ended: Row[] = [
    [`Observed ${milestoneWords[plan.question.milestone].back}`, follow_up.milestones],
    ["Not back at the last contact", follow_up.censored],
    ...follow_up.competing.map(({ code, n }): Row => [capital(competingVerb(code)), n]),
    ["All", follow_up.n],
  ];
  const known: Row[] = follow_up.known.map(({ code, n }) => [capital(sayKnown(code)), n]);
  const heaping: Row = [
    "Returns known to the day that fall on a whole week",
    html`${whole_weeks.on_whole_weeks} of ${whole_weeks.milestones}`,
  ];
  return section(
    "follow-up",
    html`${table({
      caption: "Follow-up of the analysed injuries",
      columns: [{ head: "" }, { head: "Value", align: "numbers" }],
      groups: [
        { heading: "Duration", rows: long },
        { heading: "End of follow-up", rows: ended },
        { heading: "Precision of the date of return", rows: [...known, heaping] },
      ],
      note: "By chance one date in seven would lie a whole number of weeks after day 0. Many more than that suggest rounded dates.",
    })}${caution()}`,
  );
}
