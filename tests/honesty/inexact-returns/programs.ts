import { dense, type Program, plain, sparse, type Treatment } from "../cohorts/program.js";

/** How closely a cohort's returns are known. */
interface Knowing extends Pick<Program, "visits" | "written"> {
  readonly name: string;
}

const both = (share: number): Readonly<Record<Treatment, number>> => ({ ring: share, tape: share });
const alike = (weeks: readonly number[]) => ({ ring: weeks, tape: weeks });
const nothing = { share: both(0), to: "day" } as const;

const knowing: readonly Knowing[] = [
  { name: "all known from weeks 6, 12, 24 and 36", visits: alike(sparse), written: nothing },
  { name: "all known from visits every three weeks at first", visits: alike(dense), written: nothing },
  {
    name: "ring seen every three weeks, tape in weeks 6, 12, 24 and 36",
    visits: { ring: dense, tape: sparse },
    written: nothing,
  },
  { name: "all known to the month", visits: alike(sparse), written: { share: both(1), to: "month" } },
  {
    name: "half known from weeks 6, 12, 24 and 36",
    visits: alike(sparse),
    written: { share: both(0.5), to: "day" },
  },
  {
    name: "one in four known from weeks 6, 12, 24 and 36",
    visits: alike(sparse),
    written: { share: both(0.75), to: "day" },
  },
  {
    name: "one in eight known from weeks 6, 12, 24 and 36",
    visits: alike(sparse),
    written: { share: both(0.875), to: "day" },
  },
  {
    name: "ring known to the day, half of tape from weeks 6, 12, 24 and 36",
    visits: alike(sparse),
    written: { share: { ring: 1, tape: 0.5 }, to: "day" },
  },
];

/** Many are back soon, few in the middle, the others late: no law of the toolkit is like it. */
const twoWaves = (drawn: number): number => Math.exp(0.22 * drawn + 0.4 * Math.tanh(2.5 * drawn));

/** What really happens: two courses, with and without a difference between the treatments. */
export const lives: readonly Program[] = [plain.course, twoWaves].flatMap((course) =>
  [0.75, 1].map(
    (factor): Program => ({
      ...plain,
      course,
      withRing: (day) => factor * day,
      name: `${course === twoWaves ? "two waves" : "log-normal"}; ${factor === 1 ? "nothing differs" : "ring sooner"}`,
      about: "",
    }),
  ),
);

/** Each way of knowing what really happens, and the life whose truth it shares. */
export const programs: readonly (Program & { readonly life: Program })[] = knowing.flatMap(
  ({ name, ...known }) => lives.map((life) => ({ ...life, ...known, name: `${name}; ${life.name}`, life })),
);
