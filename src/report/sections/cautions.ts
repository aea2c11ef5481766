import { type Section, section } from "../context.js";
import { bullets } from "../layout/blocks.js";
import { cautions } from "../words/cautions.js";

/** What the report is not, and who decides. */
export const cautionsSection = (): Section => section("cautions", bullets(cautions));
