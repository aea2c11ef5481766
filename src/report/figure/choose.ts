import type { CurveFamily, CurveResult, Results } from "../../study/results.js";
import { drawnText, type FigurePlan } from "../../words/figures/group-names.js";
import { labelOf } from "../../words/terms.js";
import { ChoiceError, notAmong } from "./choice-error.js";
import type { FigureSettings } from "./figure-settings.js";

/** Results as the figures shall show them; no number in them is another than in the report. */
export type ChosenResults = Omit<Results, "plan"> & { readonly plan: FigurePlan };

/** Groups that a figure of the report shows, by label. */
export function groupsOf({ curves, after_return, distances, cohort, plan }: Results): readonly string[] {
  const shown = [
    ...plan.compare.groups,
    ...curves
      .filter(({ family }) => family !== "all")
      .flatMap((family) => family.curves.map(({ label }) => label)),
    ...(after_return?.groups ?? []).filter(({ family }) => family !== "all").map(({ label }) => label),
    ...(distances?.groups ?? []).map(({ label }) => label),
    ...cohort.groups.map(({ label }) => label),
  ];
  return [...new Set(shown)];
}

/**
 * The results with the groups in the order that was chosen, under their chosen names, up to the chosen week. Figures that show none
 * of the groups keep theirs.
 *
 * @throws ChoiceError naming the groups that exist
 */
export function chosenResults(results: Results, settings: FigureSettings): ChosenResults {
  const { plan } = results;
  const labels = settings.groups?.map((text) => labelOfGroup(text, results));
  const own_names = Object.fromEntries(
    Object.entries(settings.names).map(([text, name]) => [labelOfGroup(text, results), drawable(name)]),
  );
  const inOrder = labels === undefined ? results : withGroups(results, labels);
  const cut =
    settings.until_weeks === undefined ? inOrder : cutAt(inOrder, Math.round(7 * settings.until_weeks));
  return { ...cut, plan: { ...cut.plan, own_names, report_groups: plan.compare.groups } };
}

/** A group may be called by its label or as the report writes it. */
function labelOfGroup(text: string, results: Results): string {
  const known = groupsOf(results);
  const found = known.find((label) => label === text) ?? known.find((label) => labelOf(label) === text);
  if (found === undefined) throw notAmong({ text, what: "group" }, known);
  return found;
}

function drawable(name: string): string {
  if (drawnText(name) === name.normalize("NFC")) return name.normalize("NFC");
  throw new ChoiceError(
    `The name "${name}" has letters that the font of the figures lacks: they would come out as squares.\n  Write it in letters of Latin script.`,
  );
}

type Labelled = { readonly label: string };

/** Those of the labels, in the order of the labels; all of them where none is among the labels. */
function inOrderOf<Group extends Labelled>(groups: readonly Group[], labels: readonly string[]): Group[] {
  const found = labels.flatMap((label) => groups.filter((group) => group.label === label));
  return found.length === 0 ? [...groups] : found;
}

function withGroups(results: Results, labels: readonly string[]): Results {
  const { plan, curves, after_return, distances, effects, differences_over_time, loss_bounds, cohort } =
    results;
  const compared = plan.compare.groups.some((label) => labels.includes(label));
  const isChosen = ({
    compared: one,
    reference,
  }: {
    readonly compared: string;
    readonly reference: string;
  }) => !compared || (labels.includes(one) && labels.includes(reference));
  const groups = inOrderOf(
    plan.compare.groups.map((label) => ({ label })),
    labels,
  ).map(({ label }) => label);
  return {
    ...results,
    plan: { ...plan, compare: { ...plan.compare, groups } },
    curves: curves.map((family) => familyOf(family, labels)).filter(({ curves: own }) => own.length > 0),
    after_return:
      after_return === null
        ? null
        : { ...after_return, groups: ofEachFamily(after_return.groups, (own) => inOrderOf(own, labels)) },
    distances: distances === null ? null : { ...distances, ...distancesOf(distances, labels) },
    effects: effects.filter(isChosen),
    differences_over_time: differences_over_time.filter(isChosen),
    loss_bounds:
      loss_bounds === null ? null : { ...loss_bounds, differences: loss_bounds.differences.filter(isChosen) },
    cohort,
  };
}

/** A pair that is held equal is of both its groups. */
function familyOf(family: CurveFamily, labels: readonly string[]): CurveFamily {
  const curves = inOrderOf(family.curves, labels);
  const isBroken = family.family === "standardised" && curves.length < family.curves.length;
  return { ...family, curves: isBroken ? [] : curves };
}

function ofEachFamily<Group extends { readonly family: string }>(
  groups: readonly Group[],
  order: (own: readonly Group[]) => Group[],
): Group[] {
  const families = [...new Set(groups.map(({ family }) => family))];
  return families.flatMap((family) => order(groups.filter((group) => group.family === family)));
}

function distancesOf(distances: NonNullable<Results["distances"]>, labels: readonly string[]) {
  const groups = inOrderOf(distances.groups, labels);
  const kept = groups.map(({ label }) => label);
  return { groups, pairs: distances.pairs.filter(({ group }) => kept.includes(group)) };
}

/** Nothing after the day is drawn; what was computed stays as it is. */
function cutAt(results: Results, day: number): Results {
  const { curves, differences_over_time, after_return } = results;
  const until = <Point extends { readonly day: number }>(points: readonly Point[]) =>
    points.filter((point) => point.day <= day);
  const cutCurve = (curve: CurveResult): CurveResult => ({
    ...curve,
    points: until(curve.points),
    last_day: Math.min(curve.last_day, day),
    number_at_risk: until(curve.number_at_risk),
    other_ends: curve.other_ends.map((end) => ({ ...end, points: until(end.points) })),
    alone: curve.alone === null ? null : { ...curve.alone, bounds: until(curve.alone.bounds) },
  });
  return {
    ...results,
    curves: curves.map((family) => ({ ...family, curves: family.curves.map(cutCurve) })),
    differences_over_time: differences_over_time.map((difference) => ({
      ...difference,
      points: until(difference.points),
      last_day: Math.min(difference.last_day, day),
    })),
    after_return:
      after_return === null
        ? null
        : {
            ...after_return,
            groups: after_return.groups.map(({ over_time, ...group }) => ({
              ...group,
              over_time: {
                last_day: Math.min(over_time.last_day, day),
                points: until(over_time.points),
                number_followed: until(over_time.number_followed),
              },
            })),
          },
  };
}
