import { figureInCells, notGiven, type PrintedFigure, signed, withLimits } from "./printed-figure.js";
import { type Grade, grades, type Treatment, treatments } from "./program.js";
import type { ReaderText } from "./reader-text.js";

/** What a printed figure speaks of: the key to its truth. */
export type About =
  | {
      readonly what: "share back" | "half back";
      readonly treatment: Treatment;
      readonly of: "as it is" | readonly Grade[];
    }
  | {
      readonly what: "difference of shares" | "difference of mean days";
      readonly of: "as it is" | readonly Grade[];
    }
  | { readonly what: "well"; readonly treatment: Treatment; readonly when: "landmark" | "horizon" }
  | { readonly what: "rate of new ruptures" };

/** A figure that was read in a report. */
export interface ReadFigure extends PrintedFigure {
  readonly name: string;
  readonly about: About;
}

/** A sentence by which a report gives a figure, or says that it cannot. */
interface Sentence {
  /** What tells the sentence from every other one. */
  readonly is: RegExp;
  readonly gives: RegExp;
  readonly gaveNone: RegExp;
  /** Whether a report that has nothing to give leaves the sentence out. */
  readonly silent: boolean;
}

const withWords: Readonly<Record<Treatment, string>> = { ring: "with a ring", tape: "with tape" };
const interval = "95 % confidence interval";
const time = "(?:[\\d.]+ weeks \\((\\d+) days?(?:, ([^)]*))?\\)|(\\d+) days?(?: \\(([^)]*)\\))?)";

/** Which sentence gives which figure: the one place to change when the words of a report change. */
const sentences = {
  shareBack: (treatment: Treatment): Sentence => ({
    is: new RegExp(
      `(?:[Oo]f|For) (?:the \\d+ )?injur(?:y|ies) first treated ${withWords[treatment]}\\b.* by 13 weeks|There is (?:no|only 1) injury first treated ${withWords[treatment]}\\b`,
    ),
    gives:
      /(?:an estimated (\d+) %|none) (?:are|were)(?: observed)? back to full climbing by 13 weeks \(([^)]*)\)/,
    gaveNone: /cannot be given|There is (?:no|only 1) injury/,
    silent: false,
  }),
  differenceOfShares: {
    is: /^Grade for grade.* (?:were back by|the share back by) 13 weeks|^A difference in the share back between/,
    gives: new RegExp(
      `^Grade for grade(?:, in (grade .*?) alone \\(.*?\\))?, (?:([\\d.]+) percentage points? (more|fewer) were back by 13 weeks with a ring than with tape|the share back by 13 weeks was the same with a ring as with tape) \\((${interval} .*?|no interval.*?)(?:;.*?)?\\), `,
    ),
    gaveNone: /grade for grade, cannot be given/,
    silent: false,
  },
  differenceOfMeanDays: {
    is: /^Grade for grade, the mean time to return/,
    gives: new RegExp(
      `^Grade for grade, the mean time to return, counted up to 26 weeks, was (?:([\\d.]+) days? (longer|shorter)|the same) with a ring (?:than|as) with tape \\((${interval} .*?|no interval.*?)(?:;.*?)?\\), `,
    ),
    gaveNone: /cannot be given/,
    silent: true,
  },
  halfBack: (treatment: Treatment): Sentence => ({
    is: new RegExp(
      `^(?:Half|Without adjustment, half) were back .*${withWords[treatment]}\\b|^${capital(withWords[treatment])}, (?:half were not back|the time by which half were back)`,
    ),
    gives: new RegExp(`by ${time} ${withWords[treatment]}\\b`),
    gaveNone: /half were not back by|cannot be given/,
    silent: false,
  }),
  halfBackGradeForGrade: (treatment: Treatment): Sentence => ({
    is: /^Grade for grade, half were back/,
    gives: new RegExp(`by ${time} ${withWords[treatment]}\\b`),
    gaveNone: /cannot be given/,
    silent: true,
  }),
};

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Thrown where a report no longer says what is judged here in the words that are known here. */
export class SentenceNotFound extends Error {
  constructor(name: string, expected: string, found: readonly string[]) {
    super(
      `"${name}" was not found in the report: expected ${expected}. If the words of the report have changed, change tests/honesty/cohorts/sentences.ts. Found:\n  ${found.join("\n  ")}`,
    );
    this.name = "SentenceNotFound";
  }
}

/** The parts of the sentence that give its figure; null where it says that there is none. */
function partsOf(
  { sentences: told }: ReaderText,
  name: string,
  { is, gives, gaveNone, silent }: Sentence,
): RegExpExecArray | null {
  const own = told.filter((sentence) => is.test(sentence));
  if (own.length === 0 && silent) return null;
  const parts = own.map((sentence) => gives.exec(sentence)).find((found) => found !== null);
  if (parts !== undefined) return parts;
  if (own.some((sentence) => gaveNone.test(sentence))) return null;
  throw new SentenceNotFound(
    name,
    `a sentence like ${gives}, or like ${gaveNone}`,
    own.length > 0 ? own : told,
  );
}

/** Every figure that is judged, as the report gives it. */
export function figuresRead(text: ReaderText): readonly ReadFigure[] {
  return [...inSentences(text), ...inEffects(text), ...inGrid(text), ...inAfterReturn(text)];
}

function inSentences(text: ReaderText): readonly ReadFigure[] {
  const name = "difference of shares back, grade for grade (points)";
  const difference = partsOf(text, name, sentences.differenceOfShares);
  const of = difference?.[1] === undefined ? grades : gradesNamed(difference[1]);
  const sized = (parts: RegExpExecArray | null, [size, way, limits]: readonly [number, number, number]) =>
    parts === null ? notGiven : withLimits(signed(parts[size] ?? "0", parts[way]), parts[limits]!);
  const meanName = "difference of mean days, grade for grade (days)";
  const mean = partsOf(text, meanName, sentences.differenceOfMeanDays);
  return [
    ...treatments.map((treatment): ReadFigure => {
      const own = `share back by week 13, ${treatment} (%)`;
      const parts = partsOf(text, own, sentences.shareBack(treatment));
      const figure = parts === null ? notGiven : withLimits(Number(parts[1] ?? 0), parts[2]!);
      return { ...figure, name: own, about: { what: "share back", treatment, of: "as it is" } };
    }),
    { ...sized(difference, [2, 3, 4]), name, about: { what: "difference of shares", of } },
    { ...sized(mean, [1, 2, 3]), name: meanName, about: { what: "difference of mean days", of } },
    ...treatments.flatMap((treatment): ReadFigure[] => {
      const [crude, adjusted] = [
        `half back, ${treatment} (day)`,
        `half back, grade for grade, ${treatment} (day)`,
      ] as const;
      return [
        {
          ...dayIn(partsOf(text, crude, sentences.halfBack(treatment))),
          name: crude,
          about: { what: "half back", treatment, of: "as it is" },
        },
        {
          ...dayIn(partsOf(text, adjusted, sentences.halfBackGradeForGrade(treatment))),
          name: adjusted,
          about: { what: "half back", treatment, of },
        },
      ];
    }),
  ];
}

function dayIn(parts: RegExpExecArray | null): PrintedFigure {
  if (parts === null) return notGiven;
  return withLimits(Number(parts[1] ?? parts[3]), parts[2] ?? parts[4] ?? "");
}

const gradesNamed = (words: string): readonly Grade[] =>
  [...words.matchAll(/grade (\w+)/g)].map(([, grade]) => grade as Grade);

/** Rows of the first table whose caption begins so. */
function rowsOf({ tables }: ReaderText, caption: RegExp) {
  const table = tables.find((one) => caption.test(one.caption));
  if (table === undefined)
    throw new SentenceNotFound(
      `${caption}`,
      "a table with such a caption",
      tables.map((one) => one.caption),
    );
  return table.rows;
}

function inEffects(text: ReaderText): readonly ReadFigure[] {
  const rows = rowsOf(text, /^Differences between the groups, crude and adjusted/);
  const crude = (
    measure: RegExp,
    name: string,
    what: "difference of shares" | "difference of mean days",
  ): ReadFigure => {
    const row = rows.find(({ cells }) => measure.test(cells[0]!) && cells[1] === "none");
    if (row === undefined)
      throw new SentenceNotFound(
        name,
        `a row like ${measure} adjusted for "none"`,
        rows.map(({ cells }) => cells.join(" | ")),
      );
    return { ...figureInCells(row.cells[2]!, row.cells[3]), name, about: { what, of: "as it is" } };
  };
  return [
    crude(/^Share back by 13 weeks/, "difference of shares back, crude (points)", "difference of shares"),
    crude(
      /^Restricted mean time to return/,
      "difference of mean days, crude (days)",
      "difference of mean days",
    ),
  ];
}

/** The cells of the grid together: share back, half back and difference in each grade. */
function inGrid(text: ReaderText): readonly ReadFigure[] {
  const rows = rowsOf(text, /^Share back to full climbing by 13 weeks, grade by grade/);
  return rows.flatMap(({ heading, cells }): ReadFigure[] => {
    const of = gradesNamed(heading).filter((grade) => grades.includes(grade));
    if (of.length === 0) return [];
    const [group, , share, limits, , half] = cells;
    const treatment = treatments.find((one) => one === group);
    if (treatment === undefined) {
      const about = { what: "difference of shares", of } as const;
      return [{ ...figureInCells(share!, limits), name: "grid: difference in a grade (points)", about }];
    }
    return [
      {
        ...figureInCells(share!, limits),
        name: "grid: share back by week 13 in a cell (%)",
        about: { what: "share back", treatment, of },
      },
      {
        ...figureInCells(half ?? ""),
        name: "grid: half back in a cell (day)",
        about: { what: "half back", treatment, of },
      },
    ];
  });
}

function inAfterReturn(text: ReaderText): readonly ReadFigure[] {
  const shares = rowsOf(text, /^Back and not ruptured again, at the landmarks/);
  const rates = rowsOf(text, /^New ruptures and operations after the return/);
  const landmarks = [
    { weeks: "13 weeks", when: "landmark" },
    { weeks: "26 weeks", when: "horizon" },
  ] as const;
  const all = rates.find(({ cells }) => cells[0] === "all injuries");
  const rate = all === undefined ? notGiven : figureInCells(all.cells.at(-1)!);
  return [
    ...treatments.flatMap((treatment) =>
      landmarks.map(({ weeks, when }): ReadFigure => {
        const row = shares.find(
          ({ heading, cells }) => heading.startsWith(`${treatment}:`) && cells[0] === weeks,
        );
        return {
          ...(row === undefined ? notGiven : figureInCells(row.cells[1]!)),
          name: `back and not ruptured anew by ${weeks}, ${treatment} (%)`,
          about: { what: "well", treatment, when },
        };
      }),
    ),
    {
      ...rate,
      name: "new ruptures in 100 person-months after a return",
      about: { what: "rate of new ruptures" },
    },
  ];
}
