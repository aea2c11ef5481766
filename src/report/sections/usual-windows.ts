import type { Plan } from "../../study/plan.js";
import type { Safe } from "../escape.js";
import { plainNumber, weeks } from "../format.js";
import { table } from "../layout/table.js";

/** The usual windows of the grades, beside the curves by grade. */
export function usualWindows({ usual_windows }: Plan): Safe | null {
  const rows = Object.entries(usual_windows).map(([grade, window]) => [
    `grade ${grade}`,
    window.to_weeks === null
      ? `${weeks(window.from_weeks)} or longer`
      : window.from_weeks === 0
        ? `by about ${weeks(window.to_weeks)}`
        : `${plainNumber(window.from_weeks)} to ${weeks(window.to_weeks)}`,
  ]);
  if (rows.length === 0) return null;
  return table({
    caption: "Usual windows to unrestricted climbing (common practice, no source)",
    columns: [{ head: "Grade" }, { head: "Window" }],
    groups: [{ heading: null, rows }],
    note: "General guidance about groups, drawn as bands in the figure. To lie outside a window proves nothing.",
  });
}
