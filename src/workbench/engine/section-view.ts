import type { PagePart } from "../../report/layout/shell.js";
import type { SectionView } from "./tasks.js";

/** A part of a report as a page shows it. */
export const sectionView = ({ id, title, body }: PagePart): SectionView => ({
  id,
  title,
  markup: body.markup,
});
