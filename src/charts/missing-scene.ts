import type { Count } from "../study/results.js";
import { groupNames } from "../words/figures/group-names.js";
import { byField, type MissingShown, withGaps } from "../words/figures/missing-values.js";
import { labelOf } from "../words/terms.js";
import { lineHeight } from "./marks.js";
import { lines, roughWidth } from "./rough-width.js";
import type { Theme } from "./theme.js";

/** More columns than these, or than have room, are left to the table. */
const mostColumns = 9;
/** Least width of a column in sizes of the small font. */
const leastColumn = 4.05;

/** One column of cells; shares in the order of the rows. */
export interface Column {
  readonly label: string;
  readonly n: Count;
  readonly shares: readonly (number | null)[];
}

export interface Scene {
  readonly rows: readonly {
    readonly name: readonly string[];
    readonly isBold: boolean;
    readonly height: number;
  }[];
  /** Columns by what they are groups of; the first is of all injuries. */
  readonly blocks: readonly { readonly title: string; readonly columns: readonly Column[] }[];
  /** What is to be said about the names of the columns. */
  readonly notes: readonly string[];
  readonly theme: Theme;
  readonly margins: { readonly left: number; readonly right: number };
}

export function sceneOf(
  { missing, plan }: MissingShown,
  theme: Theme,
  order: readonly number[] = withGaps(missing),
): Scene {
  const { small } = theme.font;
  const rows = order.map((place) => {
    const { field, in_the_study } = missing.fields[place]!;
    const name = lines(labelOf(field), {
      width: (theme.names === "above" ? 8.5 : 15) * small,
      size: small,
      weight: "bold",
    });
    return { name, isBold: in_the_study, height: Math.round(name.length * lineHeight(small) + small * 0.7) };
  });
  const names = Math.max(
    0,
    ...rows.flatMap(({ name }) => name).map((line) => roughWidth(line, small, "bold")),
  );
  return {
    rows,
    ...blocksOf(
      { missing, plan },
      {
        order,
        most: Math.min(mostColumns, Math.floor((theme.width - names - 5 * small) / (leastColumn * small))),
      },
    ),
    theme,
    margins: { left: Math.round(names + 2.5 * small), right: Math.round(small) },
  };
}

function blocksOf(
  { missing: { n, fields, groupings }, plan }: MissingShown,
  { order, most }: { readonly order: readonly number[]; readonly most: number },
): Pick<Scene, "blocks" | "notes"> {
  const all: Column = { label: "all", n, shares: order.map((place) => fields[place]!.share) };
  const blocks = [{ title: "", columns: [all] }];
  const notes: string[] = [];
  let used = 1;
  for (const { by, groups } of groupings) {
    if (used + groups.length > most) continue;
    used += groups.length;
    const names = groupNames({ by, labels: groups.map(({ label }) => label) }, plan);
    notes.push(...names.notes);
    const columns = groups.map(
      ({ label, n: size, missing }): Column => ({
        label: names.of(label),
        n: size,
        shares: order.map((place) => missing[place]!.share),
      }),
    );
    blocks.push({ title: byField(by), columns });
  }
  return { blocks, notes };
}

const plotWidth = ({ theme, margins }: Scene): number => theme.width - margins.left - margins.right;

export interface Placed {
  readonly column: Column;
  readonly x: number;
  readonly width: number;
}

/** Columns of one width, with a gap between blocks. */
export function placed(scene: Scene): readonly (readonly Placed[])[] {
  const gap = scene.theme.font.small;
  const count = scene.blocks.reduce((sum, { columns }) => sum + columns.length, 0);
  const room = plotWidth(scene) - gap * (scene.blocks.length - 1);
  const width = Math.min(room / count, 9 * scene.theme.font.small);
  let x = 0;
  return scene.blocks.map(({ columns }, block) => {
    x += block === 0 ? 0 : gap;
    return columns.map((column) => {
      const place = { column, x, width };
      x += width;
      return place;
    });
  });
}
