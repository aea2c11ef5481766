import type { Results, TrialGroup } from "../../study/results.js";
import { adjustedFor } from "../../words/adjustment.js";
import { intervalName, intervalWords, valueWords } from "../../words/estimates.js";
import { underRule } from "../../words/first-treatment.js";
import { comparisonName } from "../../words/measures.js";
import { plainNumber } from "../../words/numbers.js";
import { listed, lowered } from "../../words/phrases.js";
import { reasonWords } from "../../words/reasons.js";
import { sources } from "../../words/sources.js";
import { trialRows } from "../../words/target-trial/rows.js";
import { groupName } from "../../words/terms.js";
import { weeks } from "../../words/times.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, cautionAgain } from "../layout/blocks.js";
import { type Row, table } from "../layout/table.js";

type Trial = NonNullable<Results["target_trial"]>;

/** The trial that would answer the question, what this study does in its place and where the data fall short; null where no treatments are compared. */
export function trialSection({ results }: ReportContext): Section | null {
  const { target_trial: trial } = results;
  if (trial === null) return null;
  const rows = trialRows(results);
  const short = rows.filter(({ falls_short }) => falls_short.length > 0).map(({ name }) => name);
  return section(
    "trial",
    html`<p>A comparison of treatments that were chosen tries to answer what a randomised trial would have answered: the target trial (${sources.targetTrial}). ${shortIn(short, rows.length)}</p>
${behind(
  "Part by part: what the study does in its place, and where these data fall short",
  html`${table({
    caption: "The target trial, part by part",
    columns: [{ head: "Part" }, { head: "In this study" }, { head: "Where these data fall short" }],
    groups: [
      {
        heading: null,
        rows: rows.map(
          ({ name, emulated, falls_short }): Row => [
            name,
            emulated,
            falls_short.length === 0
              ? "\u2013"
              : html`<ul class="plain-list">${falls_short.map((sentence) => html`<li>${sentence}</li>`)}</ul>`,
          ],
        ),
      },
    ],
  })}${courseTable(trial)}${readingsTable(trial, results)}`,
)}`,
  );
}

/** In which parts these data fall short of the trial. */
const shortIn = (names: readonly string[], parts: number): string =>
  names.length === 0
    ? "In none of its parts was anything found in these data that keeps them from being that trial."
    : `These data fall short of it in ${names.length} of its ${parts} parts: ${names.map(lowered).join("; ")}.`;

/** When each treatment began, what came before it and what followed. */
function courseTable({ groups }: Trial): Safe {
  return table({
    caption: "The treatments compared: when they began, what came before and what followed",
    columns: [
      { head: "Group" },
      { head: "Injuries", align: "numbers" },
      { head: "Begun by day 0", align: "numbers" },
      { head: "Days to the start: median, longest", align: "numbers" },
      { head: "Another treatment before", align: "numbers" },
      { head: "May have had one before", align: "numbers" },
      { head: "Another begun before the return", align: "numbers" },
    ],
    groups: [{ heading: null, rows: groups.map(courseRow) }],
  });
}

const courseRow = (group: TrialGroup): Row => [
  groupName(group.label, "first_treatment"),
  group.n,
  group.began_by_day_0,
  group.median_days === null || group.longest_days === null
    ? "\u2013"
    : `${plainNumber(group.median_days, 1)}, ${plainNumber(group.longest_days)}`,
  withKinds(group.had_another_before, group.before),
  group.before_not_known,
  withKinds(group.went_on, group.later),
];

/** "6 (rest 6)". */
function withKinds(n: TrialGroup["n"], kinds: TrialGroup["before"]): string {
  const each = kinds.map((kind) => `${groupName(kind.code, "first_treatment")} ${kind.n}`);
  return kinds.length === 0 ? String(n) : `${n} (${each.join(", ")})`;
}

/** The main figure as the study file has it, and under other rules of which treatment is the first; null where they change nothing. */
function readingsTable({ other_readings: others, groups }: Trial, { effects, plan }: Results): Safe | null {
  if (others.length === 0) return null;
  const main = effects.filter((effect) => effect.measure === "landmark_difference" && effect.main);
  const isHeld = (effect: (typeof main)[number]) =>
    effect.adjusted_for.length > 0 && effect.estimate.value !== null;
  const own = groups
    .filter(({ label }) => label !== plan.compare.reference)
    .flatMap(({ label }) => {
      const all = main.filter(({ compared }) => compared === label);
      return all.find(isHeld) ?? all.find(({ adjusted_for }) => adjusted_for.length === 0) ?? [];
    })
    .map(({ estimate: returned, ...effect }) => ({ ...effect, returned }));
  const { first_treatment: rule } = plan.question;
  const readings = [
    { words: `As the study file has it (first_treatment: ${rule})`, groups, differences: own },
    ...others.map((one) => ({
      ...one,
      words: `${underRule[one.first_treatment](plan.compare.groups)} (first_treatment: ${one.first_treatment})`,
    })),
  ];
  return html`${table({
    caption: `Difference in the share back by ${weeks(plan.main_landmark_weeks)}, if another treatment counted as the first`,
    columns: [
      { head: "Groups" },
      { head: "Adjusted for" },
      { head: "Injuries", align: "numbers" },
      { head: "Difference", align: "numbers" },
      { head: intervalName(plan.confidence_level), align: "numbers" },
    ],
    groups: readings.map(({ words, groups: counted, differences }) => ({
      heading: `${words}: ${listed(counted.map(({ label, n }) => `${groupName(label, "first_treatment")} ${n}`))}`,
      rows:
        differences.length === 0
          ? [[reasonWords("not-computed"), null, null, null, null]]
          : differences.map(
              ({ compared, reference, adjusted_for, n, returned }): Row => [
                comparisonName(
                  groupName(compared, "first_treatment"),
                  groupName(reference, "first_treatment"),
                ),
                adjustedFor(adjusted_for),
                `${n.compared} and ${n.reference}`,
                valueWords(returned, "percentage points"),
                intervalWords(returned, "percentage points"),
              ],
            ),
    })),
  })}${cautionAgain()}`;
}
