import type { PooledAnswer, PooledResults } from "../../pooling/pooled/index.js";
import type { Count } from "../../study/results.js";
import { groupWords } from "../group-phrases.js";
import { capital } from "../phrases.js";
import {
  pooledComparisonWords,
  pooledGroupWords,
  pooledMeasureWords,
  pooledReasonWords,
  pooledUnit,
} from "./pooled-answers.js";
import type { LimitsShown, PooledShown } from "./pooled-shown.js";

const leftOut: Exclude<Count, number> = "[left out]";

/** A pooled answer of summaries, as figures show it. */
export function answerShown(answer: PooledAnswer, { agreed }: Pick<PooledResults, "agreed">): PooledShown {
  const { file } = agreed;
  const measure = capital(pooledMeasureWords(answer, file));
  const isGroup = answer.of === "group";
  const of = isGroup ? pooledGroupWords(answer, file) : pooledComparisonWords(answer, file);
  const { random } = answer;
  const inWords = { share: "per cent", "percentage points": "percentage points", time: "days", days: "days" };
  const unit = pooledUnit(answer);
  const sum = ({ told, not_told }: PooledAnswer["n"]): Count => (not_told > 0 ? leftOut : told);
  const limitsOf = ({
    lower,
    upper,
    reason,
  }: Pick<PooledAnswer["random"], "lower" | "upper" | "reason">): LimitsShown => ({
    lower,
    upper,
    reason: lower !== null && upper !== null ? null : pooledReasonWords(reason),
  });
  return {
    id: idOf(answer),
    title: `${measure}: ${of}`,
    axisTitle: `${measure}, ${inWords[unit as keyof typeof inWords]}`,
    unit,
    compared: isGroup ? null : sidesOf(answer, file.compare.by),
    sites: answer.sites.map(({ site, n, events, persons, value, lower, upper, weight, reason }) => ({
      site,
      injuries: n ?? leftOut,
      events,
      people: persons ?? leftOut,
      estimate: value,
      lower,
      upper,
      weight,
      reason: reason === null ? null : pooledReasonWords(reason),
    })),
    pooled: {
      estimate: random.value,
      interval: limitsOf(random),
      prediction: limitsOf(random.prediction),
      sites: answer.used,
      injuries: sum(answer.n),
      people: sum(answer.persons),
      method: "random effects, restricted likelihood",
    },
    level: file.confidence_level,
    synthetic: file.synthetic,
  };
}

/** Small letters, digits and hyphens; the place among the answers keeps ids apart whatever the groups are called. */
const idOf = ({ of, measure, compared }: PooledAnswer): string =>
  [of, measure.replace("_", "-"), ...(compared === null ? [] : [plain(compared)])].join("-");

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "") || "group";

function sidesOf({ compared, reference, measure }: PooledAnswer, by: string): PooledShown["compared"] {
  const [one, other] = [compared, reference].map((label) => groupWords({ by, label: label ?? "" }).among);
  return measure === "mean_days"
    ? { nullValue: 0, leftSide: `back sooner ${one}`, rightSide: `back sooner ${other}` }
    : { nullValue: 0, leftSide: `more back ${other}`, rightSide: `more back ${one}` };
}
