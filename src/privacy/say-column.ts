import { unitInWords } from "../schema/unit-words.js";
import type { RuledColumn } from "./column-rules.js";
import type { ColumnDisclosure } from "./disclosure.js";
import type { ShareSettings } from "./settings.js";

type Said = Pick<ColumnDisclosure, "done" | "says">;

const whyLeftOut = {
  "free-text": "free text is left out",
  body: "body measures are left out",
} as const;

/** What the rule of a column does, in words. */
export function sayColumn({ rule }: RuledColumn, settings: ShareSettings): Said {
  switch (rule.act) {
    case "keep":
      return { done: "kept", says: "not changed" };
    case "rename":
      return { done: "renamed", says: `a keyed name for the ${rule.kind}` };
    case "move":
      return {
        done: "moved",
        says:
          settings.dates === "offsets"
            ? "moved to a separate calendar for each person, on which the first injury is on 1 January 2000"
            : `shifted by a secret number of days, the same for all dates of a person, at most ${settings.shiftDays + settings.closingWindow} days either way`,
      };
    case "band": {
      const unit = rule.width === 1 ? "year" : unitInWords(rule.unit);
      return {
        done: "banded",
        says: `the middle of a band of ${rule.width} ${unit}; ${rule.highest} and over form one band`,
      };
    }
    case "only-on-scale":
      return {
        done: "only-on-scale",
        says: "kept if it is a level of the injury's scale, otherwise left out",
      };
    case "leave-out":
      return { done: "left-out", says: whyLeftOut[rule.why] };
  }
}
