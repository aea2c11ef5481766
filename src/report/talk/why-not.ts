import { counted } from "../../schema/counted.js";
import type { Results } from "../../study/results.js";
import { howToPool, isKeptApart } from "../../words/definitions.js";
import { reasonWords } from "../../words/reasons.js";
import { supposition } from "../../words/share-back.js";
import { milestoneWords, nobodyAnalysed } from "../../words/terms.js";
import { dotsInRow, dotsOf, fewestInjuries, isNarrowEnough } from "./dots.js";
import type { TalkGroup } from "./groups.js";

/** Why no page is made, and what could be asked instead. */
export interface WhyNot {
  readonly code: "study" | "left-out" | "too-few" | "too-open" | "no-figure";
  readonly why: string;
  readonly instead: string;
}

/** What is in the way of a page about any group of the study: what it calls back would not be what a climber hears. */
export function whyNotOfStudy(results: Results): WhyNot | null {
  const { accounting, plan } = results;
  const { question } = plan;
  if (accounting.analysis.analysed === 0)
    return {
      code: "study",
      why: nobodyAnalysed,
      instead: "Check the tables, and what the study file asks for.",
    };
  const supposed = supposition(question);
  if (supposed !== null)
    return {
      code: "study",
      why: `The study counts who would be back “${supposed.toLowerCase()}”. Nobody can be that person, so no dot may stand for one.`,
      instead: "Write share_back: of_everyone under question in the study file.",
    };
  if (!question.competing_ends.includes("gave_up"))
    return {
      code: "study",
      why: "The study does not count giving up climbing as an end, so that whoever gave up is counted as if they could still come back.",
      instead: "Name gave_up among the competing_ends under question in the study file.",
    };
  if (isKeptApart(results))
    return {
      code: "study",
      why: `The sites do not mean the same by ${milestoneWords[question.milestone].name}, so that one row of dots would mix different things.`,
      instead: howToPool,
    };
  return null;
}

/** What is in the way of a page about a group of a study in whose way nothing is; null where nothing is. */
export function whyNotOfGroup(group: TalkGroup, { small_cells }: Results): WhyNot | null {
  const { n, name, persons, landmarks, fallsEarly } = group;
  const wait = "Ask for a larger group, or wait for more data.";
  if (typeof n !== "number")
    return {
      code: "left-out",
      why: `How many injuries there are in the group “${name}” is left out: too few.`,
      instead: wait,
    };
  // a count that was rounded can stand for fewer
  const least = small_cells.choice === "leave-out" ? n - Math.floor(small_cells.smallest / 2) : n;
  if (least < fewestInjuries) {
    const about = small_cells.choice === "leave-out" ? "about " : "";
    return {
      code: "too-few",
      why: `There ${n === 1 ? "is" : "are"} ${about}${counted(n, "injury", "injuries")} in the group “${name}”, and a page needs ${fewestInjuries}: a picture of ${dotsInRow} people must not rest on fewer than it shows.`,
      instead: wait,
    };
  }
  if (typeof persons === "number" && persons < fewestInjuries && small_cells.choice === "written")
    return {
      code: "too-few",
      why: `The ${counted(n, "injury", "injuries")} in the group “${name}” are of ${counted(persons, "person", "people")}, and a page needs ${fewestInjuries}: a picture of ${dotsInRow} people must not rest on fewer than it shows.`,
      instead: wait,
    };
  if (fallsEarly)
    return {
      code: "no-figure",
      why: `The figures of the group “${name}” hang on the few who were followed at the start, since people count only from a later day on.`,
      instead: wait,
    };
  const drawn = landmarks.filter(({ returned }) => isDrawn(returned));
  if (drawn.length > 0) return null;
  const [first] = landmarks;
  const known = landmarks.find(({ returned }) => dotsOf(returned) !== null);
  return {
    code: known === undefined ? "no-figure" : "too-open",
    why:
      known === undefined
        ? `For the group “${name}” no share back can be given: ${reasonWords(first?.returned.reason ?? null)}.`
        : `For the group “${name}” the figures leave more than half of the ${dotsInRow} dots open in every week.`,
    instead: wait,
  };
}

function isDrawn(returned: TalkGroup["landmarks"][number]["returned"]): boolean {
  const dots = dotsOf(returned);
  return dots !== null && isNarrowEnough(dots);
}
