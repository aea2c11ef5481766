import type { PagePart } from "../../report/layout/shell.js";

/** A section of the report, as markup of the toolkit with every text from data escaped. */
export interface SectionView {
  readonly id: string;
  readonly title: string;
  readonly markup: string;
}

/** A part of a report as a page shows it. */
export const sectionView = ({ id, title, body }: PagePart): SectionView => ({
  id,
  title,
  markup: body.markup,
});
