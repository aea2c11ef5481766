import { type ReportContext, type Section, section } from "../context.js";
import { html } from "../escape.js";
import { capital, days, level, share, weeks } from "../format.js";
import { caution } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";
import { intervalWords } from "../words/estimates.js";
import { sayReason } from "../words/reasons.js";
import { backWords, codeWords, competingWords, sayKnown } from "../words/terms.js";

/** How long, how completely, how it ended, and how exactly the returns are known. */
export function followUpSection({ results }: ReportContext): Section {
  const { follow_up, plan } = results;
  const { median_days: median, completeness, whole_weeks } = follow_up;
  const interval = intervalWords(median, "time");
  const medianWords = median.value === null ? sayReason(median.reason) : days(median.value);
  const long: Row[] = [
    ["Median follow-up", medianWords],
    [`${level(plan.confidence_level)} interval of the median`, interval === "" ? "\u2013" : interval],
    [
      `Observed part of the possible time, up to ${weeks(plan.horizon_weeks)}`,
      completeness === null ? sayReason(null) : share(completeness),
    ],
  ];
  const ended: Row[] = [
    [`Seen ${backWords[plan.question.milestone]}`, follow_up.milestones],
    ["Not back when last seen", follow_up.censored],
    ...follow_up.competing.map(({ code, n }): Row => [capital(sayCompeting(code)), n]),
    ["All", follow_up.n],
  ];
  const known: Row[] = follow_up.known.map(({ code, n }) => [capital(sayKnown(code)), n]);
  const heaping: Row = [
    "Of the returns dated to the day, on a whole week",
    html`${whole_weeks.on_whole_weeks} of ${whole_weeks.milestones}`,
  ];
  return section(
    "follow-up",
    html`${table({
      caption: "Follow-up of the analysed injuries",
      columns: [{ head: "" }, { head: "Figure", align: "numbers" }],
      groups: [
        { heading: "How long", rows: long },
        { heading: "How it ended", rows: ended },
        { heading: "How exactly the return is known", rows: [...known, heaping] },
      ],
      note: "By chance one date in seven would lie a whole number of weeks after day 0. Many more than that point to rounded dates.",
    })}${caution()}`,
  );
}

const sayCompeting = (code: string): string =>
  (competingWords as Readonly<Record<string, string>>)[code] ?? codeWords(code);
