import { chanceOf } from "./chance.js";
import { cameToClinic, type Life, livePerson } from "./life.js";
import { type Grade, grades, type Program, type Treatment, treatments } from "./program.js";

/** Horizon and landmarks of a study file that names none. */
export const horizon = 182;
export const mainLandmark = 91;

/** What really happens in one grade under one treatment. */
interface Cell {
  readonly grade: Grade;
  readonly treatment: Treatment;
  /** Share of the group that is of this grade, of all that were injured. */
  readonly ofGroup: number;
  /** Share really back by each day from 0 to the horizon. */
  readonly back: readonly number[];
  /** Share back and not ruptured anew on the main landmark and on the horizon. */
  readonly well: Readonly<Record<"landmark" | "horizon", number>>;
}

/** The truth of a program, from a very large draw of it in which everything is known. */
export interface Truth {
  readonly cells: readonly Cell[];
  /** Share of each grade among those who came to the clinic: the mix that an adjusted figure speaks of. */
  readonly mix: Readonly<Record<Grade, number>>;
  /** New ruptures in 100 person-months after a return. */
  readonly ruptureRate: number;
}

const drawn = 400_000;

/** A grade of a treatment has at least 15,000 injuries, so that the standard error of a share is at most 0.4 points; of most it is half of that. */
export function truthOf(program: Program): Truth {
  const chance = chanceOf(`${program.name}: truth`, { n: 0, stream: 0 });
  const lives: Life[] = [];
  while (lives.length < drawn) lives.push(...livePerson(program, chance));
  const came = lives.filter(cameToClinic);
  const shareOf = (grade: Grade) => came.filter((life) => life.grade === grade).length / came.length;
  return {
    cells: treatments.flatMap((treatment) => {
      const group = lives.filter((life) => life.treatment === treatment);
      return grades.map((grade) => cellOf(group, { grade, treatment }));
    }),
    mix: { "2": shareOf("2"), "3": shareOf("3"), "4a": shareOf("4a") },
    ruptureRate: 100 * program.newRuptures,
  };
}

function cellOf(group: readonly Life[], { grade, treatment }: Pick<Cell, "grade" | "treatment">): Cell {
  const lives = group.filter((life) => life.grade === grade);
  const on = new Array<number>(horizon + 1).fill(0);
  for (const { back } of lives) if (back <= horizon) on[back]! += 1;
  let sum = 0;
  const wellOn = (day: number) =>
    lives.filter(({ back, rupturedAfter }) => back <= day && day < rupturedAfter).length / lives.length;
  return {
    grade,
    treatment,
    ofGroup: lives.length / group.length,
    back: on.map((count) => {
      sum += count;
      return sum / lives.length;
    }),
    well: { landmark: wellOn(mainLandmark), horizon: wellOn(horizon) },
  };
}

/** Share really back by each day: of a group as it is, or over the mix of some grades. */
export function trueCurve(
  truth: Truth,
  treatment: Treatment,
  of: "as it is" | readonly Grade[],
): readonly number[] {
  const cells = truth.cells.filter((cell) => cell.treatment === treatment);
  const weights = cells.map(({ grade, ofGroup }) =>
    of === "as it is" ? ofGroup : of.includes(grade) ? truth.mix[grade] : 0,
  );
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return Array.from({ length: horizon + 1 }, (_, day) =>
    cells.reduce((sum, { back }, i) => sum + (weights[i]! / whole) * back[day]!, 0),
  );
}

/** First day by which half are back; null where that is after the horizon. */
export function halfBackOn(curve: readonly number[]): number | null {
  const day = curve.findIndex((share) => share >= 0.5);
  return day < 0 ? null : day;
}

/** Mean days not yet back, of at most the days of the horizon: somebody back on day 3 was not back on days 0, 1 and 2. */
export const meanDays = (curve: readonly number[]): number =>
  curve.slice(0, horizon).reduce((sum, share) => sum + 1 - share, 0);

/** Share of a group back and not ruptured anew. */
export const trueWell = (truth: Truth, treatment: Treatment, when: keyof Cell["well"]): number =>
  truth.cells
    .filter((cell) => cell.treatment === treatment)
    .reduce((sum, { ofGroup, well }) => sum + ofGroup * well[when], 0);
