import type { Plan } from "../../study/plan.js";
import { windowCaution } from "../../words/cautions.js";
import { gradeName } from "../../words/curve-families.js";
import { windowWords } from "../../words/usual-windows.js";
import type { Safe } from "../escape.js";
import { table } from "../layout/table.js";

/** The usual windows of the grades, beside the curves by grade. */
export function usualWindows({ usual_windows }: Plan): Safe | null {
  const rows = Object.entries(usual_windows).map(([grade, window]) => [
    gradeName(grade),
    windowWords(window),
  ]);
  if (rows.length === 0) return null;
  return table({
    caption: "Usual windows to unrestricted climbing (common practice, no source)",
    columns: [{ head: "Grade" }, { head: "Window" }],
    groups: [{ heading: null, rows }],
    note: windowCaution,
  });
}
