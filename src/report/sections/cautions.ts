import { cautions } from "../../words/cautions.js";
import { smallCellWords } from "../../words/small-cells.js";
import { type ReportContext, type Section, section } from "../context.js";
import { bullets } from "../layout/blocks.js";

/** What the report is not, and who decides. */
export const cautionsSection = ({ results }: ReportContext): Section =>
  section("cautions", bullets([...cautions, smallCellWords(results)]));
