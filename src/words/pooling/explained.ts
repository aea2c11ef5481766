import type {
  Characteristic,
  CharacteristicLine,
  Explained,
  PooledAnswer,
  PooledResults,
  SiteCharacteristic,
} from "../../pooling/pooled/index.js";
import { counted } from "../../schema/counted.js";
import { plainNumber, share } from "../numbers.js";
import { capital, listed } from "../phrases.js";
import { digitsOf, limits, type Unit, unitAfter } from "../units.js";
import { pooledComparisonWords, pooledGroupWords, pooledMeasureWords } from "./pooled-answers.js";

const names: Readonly<Record<Characteristic, string>> = {
  severe_share: "share of injuries of grade 3 and above",
  delay_days: "median days from injury to first visit",
  sent_by_others: "whether people come only sent by others",
  days_between_visits: "median days between contacts",
  follow_up_days: "median follow-up, days",
  lost_share: "share lost to follow-up",
  wide_share: "share of returns known to more than 14 days only",
};

export const characteristicName = (characteristic: Characteristic): string => capital(names[characteristic]);

/** A site's value as a cell. */
export function characteristicValue({ unit }: SiteCharacteristic, value: number | null): string {
  if (value === null) return "\u2013";
  if (unit === "share") return share(value);
  return unit === "days" ? plainNumber(value, 1) : value === 1 ? "yes" : "no";
}

/** By how much of it a line is told: "per 10 points more". */
export function stepWords({ unit, step }: Pick<SiteCharacteristic, "unit" | "step">): string {
  if (unit === "share") return `per ${plainNumber(100 * step, 0)} percentage points more`;
  return unit === "days" ? `per ${counted(step, "day", "days")} more` : "yes against no";
}

/** The unit in which a change of the answer is shown. */
export const changeUnit = ({ scale }: Pick<PooledAnswer, "scale">): Unit =>
  scale === "logit" ? "ratio" : scale === "share" ? "percentage points" : "days";

/** "odds times 1.20 (0.80 to 1.79)", "2 points (-1 to 5)". */
export function changeWords(
  { value, lower, upper }: Pick<CharacteristicLine, "value" | "lower" | "upper">,
  answer: Pick<PooledAnswer, "scale">,
): string {
  if (value === null) return "\u2013";
  const unit = changeUnit(answer);
  const digits = digitsOf(value, { unit });
  const told = unit === "ratio" ? `odds times ${digits}` : digits + unitAfter(digits, unit);
  return lower === null || upper === null ? told : `${told} (${limits({ lower, upper }, unit)})`;
}

const answerName = (answer: PooledAnswer, { agreed }: Pick<PooledResults, "agreed">): string =>
  `${pooledMeasureWords(answer, agreed.file)}, ${answer.of === "group" ? pooledGroupWords(answer, agreed.file) : pooledComparisonWords(answer, agreed.file)}`;

/** Lines whose interval leaves out no change. */
const seen = (lines: Explained["lines"], { answers }: Pick<PooledResults, "answers">) =>
  lines.filter(({ answer, lower, upper }) => {
    if (lower === null || upper === null) return false;
    const none = answers.find(({ id }) => id === answer)?.scale === "logit" ? 1 : 0;
    return lower > none || upper < none;
  });

/** What the lines show and what they cannot, or why there are none. */
export function explainedSentences({
  explained,
  answers,
  agreed,
  sites,
}: Pick<PooledResults, "explained" | "answers" | "agreed" | "sites">): readonly string[] {
  const { lines, fewest_sites } = explained;
  if (sites.length < fewest_sites)
    return [
      `No line is drawn of what the sites find on what they are, and whether small sites answer otherwise is not tested: there ${sites.length === 1 ? "is 1 site" : `are ${sites.length} sites`}, and with fewer than ${fewest_sites} such a line finds little, and what it finds is often chance (${fewest_sites} sites for each characteristic: common practice, no source).`,
    ];
  const drawn = lines.filter(({ value }) => value !== null);
  if (drawn.length === 0)
    return [
      `No line could be drawn: of no characteristic are there ${fewest_sites} sites that tell it, have an answer and differ in it.`,
    ];
  const shown = seen(drawn, { answers });
  const level = agreed.file.confidence_level;
  const byChance = drawn.length * (1 - level);
  return [
    `${capital(counted(drawn.length, "line was", "lines were"))} drawn, each of one answer on one characteristic by itself.`,
    shown.length === 0
      ? "The interval of each of them includes no change."
      : `${capital(counted(shown.length, "line leaves", "lines leave"))} out no change: ${listed(shown.map(({ answer, characteristic }) => `${names[characteristic]} (${answerName(answers.find(({ id }) => id === answer)!, { agreed })})`))}. Of ${drawn.length} lines about ${plainNumber(byChance, 1)} would by chance alone.`,
    "They compare sites, not people: what goes together between sites need not go together for people of one site, and sites that differ in one thing differ in others as well.",
  ];
}
