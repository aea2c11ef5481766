import { type Setting, settingOf } from "../setting.js";
import { judged } from "./judge.js";
import { programs } from "./program.js";
import { type Truth, truthOf } from "./truth.js";

const sizes = [40, 80, 200] as const;

/** The programs as settings: how often the printed sentences hold the truth. */
export const sentenceSettings: readonly Setting[] = programs.map((program) =>
  settingOf<Truth>({
    part: "sentences",
    name: program.name,
    about: program.about,
    allows: !program.answerable ? "no answer" : program.visits === null ? "days" : "visits",
    sizes,
    replicates: 200,
    truth: () => truthOf(program),
    replicate: (draw, truth) => judged(program, { ...draw, truth }),
  }),
);
