import type { Count, CurveFamily, Estimate, OtherEnd, Results } from "../../study/results.js";
import { gradeName } from "../../words/curve-families.js";
import { groupWords } from "../../words/group-phrases.js";
import { shortened } from "../../words/phrases.js";
import { groupName, labelOf } from "../../words/terms.js";

/** What the injuries of a group have in common: a field and its value. */
export interface Feature {
  readonly field: string;
  readonly value: string;
}

/** A group that a page can be asked for, with what the results hold of it. */
export interface TalkGroup {
  /** As somebody asks for it: "all injuries", "grade 3", "ring", "grade 3, ring". */
  readonly name: string;
  /** Nothing for all injuries together. */
  readonly features: readonly Feature[];
  readonly n: Count;
  readonly persons: Count;
  readonly entry: CurveFamily["entry"];
  readonly landmarks: readonly { readonly week: number; readonly day: number; readonly returned: Estimate }[];
  /** The curve reached its end while hardly anybody was followed. */
  readonly fallsEarly: boolean;
  /** Returns and other ends during all of the follow-up; null where the results do not hold them for this group. */
  readonly ends: {
    readonly returned: Count;
    readonly others: readonly Pick<OtherEnd, "end" | "n">[];
    readonly competing: Count;
  } | null;
}

/** How the group of everybody is asked for. */
export const allInjuries = "all injuries";

/** Not a grade of which anybody could say "like mine". */
const noGrade = "unknown";

/**
 * Every group of a study that a page to talk over could be about: all injuries, each grade, each group compared, and each group
 * compared within each value of the field that the study sets them side by side in.
 */
export function talkGroups(results: Results): readonly TalkGroup[] {
  const { curves, plan } = results;
  const of = (family: CurveFamily["family"], featuresOf: (label: string) => readonly Feature[]) =>
    curves
      .filter((one) => one.family === family)
      .flatMap((one) =>
        one.curves.map((curve) => groupOfCurve(curve, { entry: one.entry, featuresOf, results })),
      );
  const { by } = plan.compare;
  return [
    ...of("all", () => []),
    ...of("grade", (value) => [{ field: "grade", value }]).filter(
      ({ features }) => features[0]!.value !== noGrade,
    ),
    ...(by === "grade" ? [] : of("compared", (value) => [{ field: by, value }])),
    ...groupsWithin(results),
  ].filter(({ n, features }) => n !== 0 || features.length === 0);
}

function groupOfCurve(
  curve: CurveFamily["curves"][number],
  {
    entry,
    featuresOf,
    results,
  }: {
    readonly entry: CurveFamily["entry"];
    readonly featuresOf: (label: string) => readonly Feature[];
    readonly results: Results;
  },
): TalkGroup {
  const features = featuresOf(curve.label);
  return {
    name: nameOf(features),
    features,
    n: curve.n,
    persons: curve.persons,
    entry,
    landmarks: curve.landmarks,
    fallsEarly: curve.falls_early,
    // rounded counts have no difference, and other ends are left out
    ends:
      results.small_cells.choice === "leave-out"
        ? null
        : { returned: curve.events, competing: curve.competing, others: curve.other_ends },
  };
}

/** Of these the results hold the shares back, and nothing else that happened. */
function groupsWithin({ within, curves, plan }: Results): readonly TalkGroup[] {
  if (within === null) return [];
  const entry = curves.find(({ family }) => family === "compared")?.entry ?? "clock";
  return within.rows
    .filter(({ value }) => value !== noGrade)
    .flatMap(({ value, cells }) =>
      cells.map((cell): TalkGroup => {
        const features = [
          { field: within.field, value },
          { field: plan.compare.by, value: cell.label },
        ];
        return {
          name: nameOf(features),
          features,
          n: cell.n,
          persons: cell.persons,
          entry,
          landmarks: cell.landmarks,
          fallsEarly: cell.falls_early,
          ends: null,
        };
      }),
    );
}

const valueName = ({ field, value }: Feature): string =>
  field === "grade" ? gradeName(labelOf(value)) : groupName(value, field);

const nameOf = (features: readonly Feature[]): string =>
  features.length === 0 ? allInjuries : features.map(valueName).join(", ");

/** What the injuries have in common, after "injury" or "injuries": "of grade 3 and first treated with a ring". */
export const featureWords = (features: readonly Feature[]): readonly string[] =>
  features.map(({ field, value }) => groupWords({ by: field, label: shortened(value) }).of);

/** A name as it may be typed: capitals, commas and blanks do not matter. */
const asTyped = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[\s,_-]+/gu, " ")
    .trim();

/** The group somebody asks for; undefined where there is none of that name. */
export const groupCalled = (name: string, groups: readonly TalkGroup[]): TalkGroup | undefined =>
  groups.find((group) => asTyped(group.name) === asTyped(name));
