import { stringify } from "yaml";
import type { Plan } from "../study/index.js";

/**
 * A study file from what was read of another: every default filled in, no comment of its author. It reads back to the
 * same plan, and two study files that say the same give the same text.
 */
export const plainStudyText = (plan: Plan): string =>
  `# ${plan.synthetic ? "SYNTHETIC DATA. " : ""}The study as it was read, with every default filled in.\n${stringify(plan, { lineWidth: 0, aliasDuplicateObjects: false })}`;
