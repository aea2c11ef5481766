import type { Count, Results } from "../../study/results.js";
import { describedTable } from "./cohort.js";
import { type ColumnsOf, type FlatTable, flatTable } from "./reshape.js";

/** What is missing, which fields together, who was lost, and how the lost differ from those who stayed. */
export const missingTables = (results: Results): FlatTable[] => [
  flatTable("missing-values", { things: gapsOf(results.missing), columns: gapColumns }),
  flatTable("missing-together", { things: results.missing.patterns, columns: patternColumns }),
  flatTable("lost", { things: lossesOf(results.lost), columns: lossColumns }),
  ...results.lost.compared
    .filter(({ rows }) => rows.length > 0)
    .map(({ by, group, lost, stayed, rows }) => {
      const name = by === null ? "lost-and-stayed" : `lost-and-stayed-${group.replaceAll("_", "-")}`;
      const groups = [
        { label: "lost", n: lost },
        { label: "stayed", n: stayed },
      ];
      return describedTable({ name, groups, rows });
    }),
];

interface Gap {
  readonly field: string;
  readonly by: string | null;
  readonly group: string;
  readonly n: Count;
  readonly missing: Count;
  readonly share: number | null;
  readonly blank: Count | null;
  readonly unknown: Count | null;
}

function gapsOf({ n, fields, groupings }: Results["missing"]): Gap[] {
  return fields.flatMap(({ field, blank, unknown, missing, share }, i) => [
    { field, by: null, group: "all", n, missing, share, blank, unknown },
    ...groupings.flatMap(({ by, groups }) =>
      groups.map(({ label, n: size, missing: gaps }): Gap => {
        const { n: gap, share: part } = gaps[i]!;
        return { field, by, group: label, n: size, missing: gap, share: part, blank: null, unknown: null };
      }),
    ),
  ]);
}

const gapColumns: ColumnsOf<Gap> = {
  field: ({ field }) => field,
  by: ({ by }) => by,
  group: ({ group }) => group,
  injuries: ({ n }) => n,
  missing: ({ missing }) => missing,
  share: ({ share }) => share,
  blank: ({ blank }) => blank,
  unknown: ({ unknown }) => unknown,
};

const patternColumns: ColumnsOf<Results["missing"]["patterns"][number]> = {
  fields_missing_together: ({ fields }) => fields.join(" "),
  injuries: ({ n }) => n,
};

type Loss = Results["lost"]["groupings"][number]["groups"][number] & { readonly by: string | null };

function lossesOf({ groupings, ...all }: Results["lost"]): Loss[] {
  return [
    { by: null, label: "all", ...all },
    ...groupings.flatMap(({ by, groups }) => groups.map((group) => ({ by, ...group }))),
  ];
}

const lossColumns: ColumnsOf<Loss> = {
  by: ({ by }) => by,
  group: ({ label }) => label,
  injuries: ({ n }) => n,
  lost: ({ lost }) => lost,
  share: ({ share }) => share,
  completeness: ({ completeness }) => completeness,
};
