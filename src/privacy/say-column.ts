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
      return { done: "kept", says: "as it was" };
    case "rename":
      return { done: "renamed", says: `a keyed name for the ${rule.kind}` };
    case "move":
      return {
        done: "moved",
        says:
          settings.dates === "offsets"
            ? "on the person's own calendar: the first injury is 1 January 2000"
            : `moved by a secret number of days, the same for all dates of a person, at most ${settings.shiftDays + settings.closingWindow} either way`,
      };
    case "band": {
      const unit = rule.unit === "a" ? "years" : rule.unit;
      return {
        done: "banded",
        says: `the middle of bands of ${rule.width} ${unit}; ${rule.highest} and over are one band`,
      };
    }
    case "only-on-scale":
      return { done: "only-on-scale", says: "kept where it is a level of the injury's scale, else left out" };
    case "leave-out":
      return { done: "left-out", says: whyLeftOut[rule.why] };
  }
}
