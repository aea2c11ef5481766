export const grades = ["2", "3", "4a"] as const;
export type Grade = (typeof grades)[number];
export const treatments = ["ring", "tape"] as const;
export type Treatment = (typeof treatments)[number];

/** How common each grade is, and the days by which half are back under tape. */
export const gradeShares: Readonly<Record<Grade, number>> = { "2": 0.5, "3": 0.35, "4a": 0.15 };
export const halfBackUnderTape: Readonly<Record<Grade, number>> = { "2": 63, "3": 91, "4a": 119 };
/** Standard deviation of the logarithm of the days until a return. */
export const spread = 0.45;
/** Weight of what a person's injuries have in common in that logarithm; the rest is each injury's own. */
export const ofPerson = 0.8;

/** A rate a week, and how much larger it is for those who recover slowly: times exp(slow x), x standard normal over people. */
export interface Rate {
  readonly weekly: number;
  readonly slow: number;
}

/** A kind of cohort: what happens to people, and what a clinic gets to know of it. */
export interface Program {
  readonly name: string;
  readonly about: string;
  /** Whether the data allow an answer at all; if not, a miss is the data's and ought to be said in the report. */
  readonly answerable: boolean;
  /** How many of a grade are treated with a ring. */
  readonly ringed: Readonly<Record<Grade, number>>;
  /** The day on which somebody is back with a ring who would be back on this day with tape. */
  readonly withRing: (day: number) => number;
  /** Share of people with two injured fingers. */
  readonly twoFingers: number;
  /** From week 4 on. */
  readonly givingUp: Readonly<Record<Treatment, Rate>>;
  /** Loss to follow-up, whatever the treatment. */
  readonly loss: Rate;
  /** Share of people who first come in weeks 3 to 10, if they are not back by then. */
  readonly comingLate: number;
  /** Share of injuries whose grade nobody wrote down. */
  readonly gradeMissing: number;
  /** Days until a return over those by which half of the grade are back, for a standard normal draw. */
  readonly course: (drawn: number) => number;
  /** Weeks after the injury of the visits at which the return is asked after; null where its day is written down. */
  readonly visits: Readonly<Record<Treatment, readonly number[]>> | null;
  /** Where there are visits: share of injuries whose return is written down all the same, and whether to the day or to the month. */
  readonly written: { readonly share: Readonly<Record<Treatment, number>>; readonly to: "day" | "month" };
  /** New ruptures a month after the return. */
  readonly newRuptures: number;
}

const alike = (one: number) => ({ "2": one, "3": one, "4a": one });
const often: Rate = { weekly: 0.01, slow: 0 };

/** Log-normal times: one course. */
const oneCourse = (drawn: number): number => Math.exp(spread * drawn);

export const plain: Omit<Program, "name" | "about"> = {
  answerable: true,
  ringed: alike(0.5),
  withRing: (day) => 0.85 * day,
  twoFingers: 0,
  givingUp: { ring: often, tape: often },
  loss: { weekly: 0.004, slow: 0 },
  comingLate: 0,
  gradeMissing: 0,
  course: oneCourse,
  visits: null,
  written: { share: { ring: 0, tape: 0 }, to: "day" },
  newRuptures: 0,
};

const byGrade = { "2": 0.25, "3": 0.55, "4a": 0.8 };
export const sparse = [6, 12, 24, 36];
export const dense = [3, 6, 9, 12, 15, 18, 22, 26, 32, 38];
const weekEight = 56;

const program = (own: Partial<Program> & Pick<Program, "name" | "about">): Program => ({ ...plain, ...own });

/** Every program, each with one feature that the first has not, but for the last. */
export const programs: readonly Program[] = [
  program({
    name: "by lot, days known",
    about:
      "Ring or tape by lot, times 15 % shorter with a ring, 1 in 100 gives up in a week from week 4 on, few are lost, the day of each return is written down.",
  }),
  program({
    name: "confounded by grade",
    about: "As the first, but 25, 55 and 80 % of grades 2, 3 and 4a have a ring.",
    ringed: byGrade,
  }),
  program({
    name: "one group gives up more",
    about: "As the first, but 4 in 100 give up in a week with a ring and 1 in 200 with tape.",
    givingUp: { ring: { weekly: 0.04, slow: 0 }, tape: { weekly: 0.005, slow: 0 } },
  }),
  program({
    name: "the slow give up",
    about: "As the first, but those who recover slowly give up more often.",
    givingUp: { ring: { weekly: 0.012, slow: 1 }, tape: { weekly: 0.012, slow: 1 } },
  }),
  program({
    name: "many lost, whatever their course",
    about: "As the first, but 1 in 50 is lost in a week, whatever the course.",
    loss: { weekly: 0.02, slow: 0 },
  }),
  program({
    name: "the slow are lost",
    about:
      "As the first, but 1 in 70 is lost in a week, those who recover slowly more often. No analysis of these data can know it: the report has to say how far the lost could change the answer.",
    answerable: false,
    loss: { weekly: 0.014, slow: 1 },
  }),
  program({
    name: "sparse visits, alike in both groups",
    about: "As the first, but returns are known from visits in weeks 6, 12, 24 and 36 only.",
    visits: { ring: sparse, tape: sparse },
  }),
  program({
    name: "visits unlike between the groups, nothing differs",
    about:
      "Ring and tape return alike; ringed fingers are seen every three to six weeks, taped ones in weeks 6, 12, 24 and 36.",
    withRing: (day) => day,
    visits: { ring: dense, tape: sparse },
  }),
  program({
    name: "late first visits",
    about:
      "As the first, but 3 in 10 first come in weeks 3 to 10, unless they are back by then; treatment begins at the first visit. Truth: of all who were injured.",
    comingLate: 0.3,
  }),
  program({
    name: "grade not recorded in a quarter",
    about: "As confounded by grade, but for 1 in 4 injuries nobody wrote the grade down, by chance.",
    ringed: byGrade,
    gradeMissing: 0.25,
  }),
  program({
    name: "several fingers",
    about: "As confounded by grade, but 4 in 10 people have two injured fingers, treated alike.",
    ringed: byGrade,
    twoFingers: 0.4,
  }),
  program({
    name: "the ring helps from week 8 on",
    about:
      "As the first, but a ring changes nothing before week 8 and shortens what then remains by 4 in 10.",
    withRing: (day) => (day <= weekEight ? day : weekEight + 0.6 * (day - weekEight)),
  }),
  program({
    name: "new ruptures after the return",
    about: "As the first, with 4 new ruptures in 100 person-months after a return.",
    newRuptures: 0.04,
  }),
  program({
    name: "as in a clinic",
    about:
      "Confounded by grade; 1 in 5 people has two injured fingers, 15 % come late, 10 % of grades are not recorded, the slow give up more often, with a ring twice as often, 1 in 100 is lost in a week whatever the course, 2 new ruptures in 100 person-months after a return. Days are written down.",
    ringed: byGrade,
    twoFingers: 0.2,
    comingLate: 0.15,
    gradeMissing: 0.1,
    givingUp: { ring: { weekly: 0.012, slow: 0.7 }, tape: { weekly: 0.006, slow: 0.7 } },
    loss: { weekly: 0.01, slow: 0 },
    newRuptures: 0.02,
  }),
];
