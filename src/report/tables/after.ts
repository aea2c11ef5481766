import type { AfterReturnGroup, Results } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type ColumnsOf, type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type OfTime<K extends "points" | "number_followed"> = ParentAndChild<
  AfterReturnGroup,
  AfterReturnGroup["over_time"][K][number]
>;
type Landmark = ParentAndChild<AfterReturnGroup, AfterReturnGroup["landmarks"][number]>;

/** What came after the return: counts and rates, shares at the landmarks and over time. */
export function afterTables({ after_return }: Results): FlatTable[] {
  const groups = after_return?.groups ?? [];
  const landmarks: ColumnsOf<Landmark> = {
    family: ({ parent }) => parent.family,
    group: ({ parent }) => parent.label,
    week: ({ child }) => child.week,
    day: ({ child }) => child.day,
    ...estimateColumns<Landmark>("back_and_well", ({ child }) => child.back_and_well),
    ...estimateColumns<Landmark>("ruptured_again", ({ child }) => child.ruptured_again),
  };
  const points: ColumnsOf<OfTime<"points">> = {
    family: ({ parent }) => parent.family,
    group: ({ parent }) => parent.label,
    day: ({ child }) => child.day,
    not_yet: ({ child }) => child.not_yet,
    back_and_well: ({ child }) => child.back_and_well,
    ruptured_again: ({ child }) => child.ruptured_again,
    ended_before: ({ child }) => child.ended_before,
    ended_after: ({ child }) => child.ended_after,
  };
  const followed: ColumnsOf<OfTime<"number_followed">> = {
    family: ({ parent }) => parent.family,
    group: ({ parent }) => parent.label,
    day: ({ child }) => child.day,
    not_yet: ({ child }) => child.not_yet,
    back_and_well: ({ child }) => child.back_and_well,
  };
  return [
    flatTable("after-return", {
      things: groups,
      columns: {
        family: ({ family }) => family,
        group: ({ label }) => label,
        injuries: ({ n }) => n,
        returned: ({ returned }) => returned,
        ruptured_again: ({ ruptured_again }) => ruptured_again,
        operated: ({ operated }) => operated,
        person_months: ({ person_months }) => person_months,
        ...estimateColumns<AfterReturnGroup>("ruptures_per_100_person_months", ({ rate }) => rate),
        level_below: ({ level }) => level.below,
        level_same: ({ level }) => level.same,
        level_above: ({ level }) => level.above,
        level_not_recorded: ({ level }) => level.not_recorded,
        complications_asked: ({ complications }) => complications.asked,
        complications_found: ({ complications }) => complications.found,
        ...estimateColumns<AfterReturnGroup>(
          "complications_share",
          ({ complications }) => complications.share,
        ),
      },
    }),
    flatTable("after-return-landmarks", {
      things: unfold(groups, (group) => group.landmarks),
      columns: landmarks,
    }),
    flatTable("after-return-over-time", {
      things: unfold(groups, (group) => group.over_time.points),
      columns: points,
    }),
    flatTable("after-return-followed", {
      things: unfold(groups, (group) => group.over_time.number_followed),
      columns: followed,
    }),
  ];
}
