import type { Finding } from "../ask.js";
import type { InjuryRow } from "../injuries.js";
import type { Grade, Pulley } from "../terms.js";
import type { RowRule } from "./row-rule.js";

type Extent = NonNullable<InjuryRow["pulley_extents"]>[number];

/** The extent of each pulley; empty where extents are not given, or not one for each pulley. */
function extentsOf({ pulleys, pulley_extents }: InjuryRow): ReadonlyMap<Pulley, Extent> {
  if (pulley_extents === null || pulley_extents.length !== pulleys.length) return new Map();
  return new Map(pulleys.map((pulley, i) => [pulley, pulley_extents[i]!]));
}

/** Pulleys that carry little: alone, they do not explain a grade above 1. */
const minorPulleys: ReadonlySet<Pulley> = new Set<Pulley>(["A1", "A5", "C1", "C2", "C3"]);
const gradesAboveOne: ReadonlySet<Grade> = new Set<Grade>(["2", "3", "4a", "4b", "4_undivided"]);

const aboutGrade = ({ grade }: InjuryRow): Finding => ({ column: "grade", found: grade });
const lookAt = (
  code: RowRule<InjuryRow>["code"],
  broken: (values: InjuryRow) => boolean,
  about = aboutGrade,
): RowRule<InjuryRow> => ({
  code,
  severity: "look-at",
  check: (values) => (broken(values) ? about(values) : null),
});

/** Grade against pulleys, extents and bowstringing. The meaning of the grades is common practice, no source. */
export const injuryGradeRules: readonly RowRule<InjuryRow>[] = [
  {
    code: "extents-not-matching-pulleys",
    severity: "look-at",
    check: ({ pulleys, pulley_extents }) =>
      pulley_extents === null || pulley_extents.length === pulleys.length
        ? null
        : {
            column: "pulley_extents",
            found: pulley_extents.join("|"),
            facts: { pulleys: pulleys.join("|") },
          },
  },
  lookAt(
    "pulley-twice",
    ({ pulleys }) => new Set(pulleys).size < pulleys.length,
    ({ pulleys }) => ({ column: "pulleys", found: pulleys.join("|") }),
  ),
  lookAt("grade-3-without-complete-a2", (values) => {
    if (values.grade !== "3") return false;
    return !values.pulleys.includes("A2") || (extentsOf(values).get("A2") ?? "complete") !== "complete";
  }),
  lookAt("grade-3-with-second-complete", (values) => {
    if (values.grade !== "3") return false;
    return [...extentsOf(values)].filter(([, extent]) => extent === "complete").length > 1;
  }),
  lookAt(
    "grade-2-with-complete-a2",
    (values) => values.grade === "2" && extentsOf(values).get("A2") === "complete",
  ),
  lookAt(
    "grade-1-with-tear",
    (values) => values.grade === "1" && [...extentsOf(values).values()].some((extent) => extent !== "strain"),
  ),
  lookAt(
    "grade-4a-visible-bowstringing",
    ({ grade, bowstringing }) => grade === "4a" && bowstringing === "visible",
  ),
  lookAt("grade-4b-without-bowstringing", ({ grade, bowstringing, pulleys }) => {
    const notVisible = bowstringing === "none" || bowstringing === "imaging_only";
    return grade === "4b" && notVisible && new Set(pulleys).size > 1;
  }),
  lookAt(
    "thumb-with-grade",
    ({ finger }) => finger === "thumb",
    ({ finger }) => ({ column: "finger", found: finger }),
  ),
  lookAt(
    "minor-pulley-alone",
    ({ grade, pulleys }) => gradesAboveOne.has(grade) && pulleys.every((pulley) => minorPulleys.has(pulley)),
  ),
];
