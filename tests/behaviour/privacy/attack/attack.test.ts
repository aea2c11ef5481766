import { createHash, createHmac } from "node:crypto";
import { describe, expect, it } from "vitest";
import { keyedNames, type ShareSettings } from "../../../../src/privacy/index.js";
import { dateOfDay } from "../../../../src/schema/index.js";
import { copyWith, openKey } from "../cohorts.js";
import {
  bestDay,
  type Folder,
  guessedGrades,
  guessedSites,
  orderOf,
  possibleDays,
  type Scores,
  together,
} from "./attacker.js";
import { clinic, knowledge, type Truth } from "./clinic.js";

/** The window of a copy where nothing else is asked for. */
const window = 28;

/**
 * The most hits that guessing with a chance of p reaches in n tries, but for one such test in a thousand: the quantile
 * of the binomial distribution.
 */
function mostHits(n: number, p: number): number {
  let [probability, sum, hits] = [(1 - p) ** n, 0, 0];
  for (; hits <= n; hits++) {
    sum += probability;
    if (sum >= 0.999) return hits;
    probability *= ((n - hits) / (hits + 1)) * (p / (1 - p));
  }
  return n;
}

const whole = clinic({ people: 160 });

const folderOf = (
  cohort: typeof whole,
  settings: Partial<ShareSettings> = {},
  close = knowledge.close,
): Folder => {
  const copy = copyWith(cohort.read, { closedOn: dateOfDay(close), ...settings });
  return {
    "disclosure.json": JSON.stringify(copy.disclosure),
    ...Object.fromEntries(copy.tables.map(({ table, text }) => [`${table}.csv`, text])),
  };
};

const names = keyedNames(openKey);
const truthsByName = (truths: readonly Truth[]) =>
  new Map(truths.map((truth) => [names.nameOf("injury", [truth.injury]), truth]));

/** How many days of injury the attacker won, and of how many. */
function daysWon(scores: ReadonlyMap<string, Scores>, isCounted: (truth: Truth) => boolean, cohort = whole) {
  const truths = truthsByName(cohort.truths);
  const counted = [...scores].filter(([name]) => isCounted(truths.get(name)!));
  return {
    tried: counted.length,
    certain: counted.filter(([, possible]) => possible.size <= 1).length,
    exact: counted.filter(([name, possible]) => bestDay(possible) === truths.get(name)!.day).length,
  };
}

const everybody = () => true;
const stillFollowed = ({ atClose }: Truth) => atClose;
const toTheMonth = (truth: Truth) => truth.toTheMonth;

/** No day of injury is certain, and no more are right than guessing one of a window's days would give. */
function expectNoDays(won: ReturnType<typeof daysWon>): void {
  expect(won.tried).toBeGreaterThan(10);
  expect(won.certain).toBe(0);
  expect(won.exact, `${won.exact} of ${won.tried}`).toBeLessThanOrEqual(mostHits(won.tried, 1 / window));
}

const ways: readonly (readonly [string, Partial<ShareSettings>])[] = [
  ["day offsets", {}],
  ["shifted dates", { dates: "shifted" }],
];

describe("an attacker with the shared folder, the closing date, the calendar and the sites' habits", () => {
  it("has something to win: many are still followed at the close, and months are known", () => {
    expect(whole.truths.filter(stillFollowed).length).toBeGreaterThan(30);
    expect(whole.truths.filter(toTheMonth).length).toBeGreaterThan(10);
  });

  describe.each(ways)("%s", (_, way) => {
    const scores = possibleDays(folderOf(whole, way), knowledge);
    it.each([
      ["everybody", everybody],
      ["those still followed at the close", stillFollowed],
      ["those with a date known to the month", toTheMonth],
    ])("wins no day of injury of %s", (__, who) => expectNoDays(daysWon(scores, who)));
  });

  it.each<readonly [string, readonly Partial<ShareSettings>[]]>([
    ["offsets and shifted dates", [{}, { dates: "shifted" }]],
    ["two windows", [{}, { closingWindow: 56 }, { closingWindow: 224 }]],
    [
      "two ranges of shifted dates",
      [
        { dates: "shifted", shiftDays: 182 },
        { dates: "shifted", shiftDays: 728 },
      ],
    ],
  ])("wins no day of injury by several copies made with one key: %s", (_, copies) => {
    const scores = together(copies.map((settings) => possibleDays(folderOf(whole, settings), knowledge)));
    expectNoDays(daysWon(scores, stillFollowed));
  });

  it("wins no day of injury by copies of before and after: one injury more, or a close ten days later", () => {
    const close = knowledge.close - 10;
    const before = clinic({ people: 160, close });
    const fewer = clinic({ people: 159 });
    const scores = [
      possibleDays(folderOf(before, {}, close), { ...knowledge, close }),
      possibleDays(folderOf(fewer), knowledge),
      possibleDays(folderOf(whole), knowledge),
    ];
    expectNoDays(daysWon(together(scores.slice(1).reverse()), stillFollowed));
    const followedInBoth = new Set(before.truths.filter(stillFollowed).map(({ injury }) => injury));
    const both = together([scores[2]!, scores[0]!]);
    expectNoDays(daysWon(both, (truth) => truth.atClose && followedInBoth.has(truth.injury)));
    // that somebody was added is seen, and no copy can hide it
    const known = new Set(orderOf(folderOf(fewer)));
    expect(orderOf(folderOf(whole)).filter((name) => !known.has(name)).length).toBeLessThanOrEqual(1);
  });

  /** Hits of a guess, and the most that the commonest truth would give by chance or that the copy itself owns up to. */
  function cellsWon(
    folder: Folder,
    guesses: readonly (readonly [string, boolean])[],
    field: "site" | "grade",
  ) {
    const truths = truthsByName(whole.truths);
    const hidden = guesses.map(([name]) => truths.get(name)![field]);
    const commonest = Math.max(0, ...hidden.map((truth) => hidden.filter((each) => each === truth).length));
    const told = JSON.parse(folder["disclosure.json"]!).read_back?.find(
      (each: { field: string }) => each.field === field,
    );
    // where a value is read back in spite of all, the copy counts every such value as known
    const isOwned = told !== undefined && told.read_back > told.allowed;
    return {
      tried: guesses.length,
      hits: guesses.filter(([, isRight]) => isRight).length,
      most: isOwned ? guesses.length : mostHits(guesses.length, commonest / Math.max(1, guesses.length)),
    };
  }

  it.each([
    ["suppress", 55],
    ["generalise", 70],
  ] as const)("wins hidden sites no better than by the commonest: --rare %s", (rare, k) => {
    const folder = folderOf(whole, { rare, k, fields: ["site_id"] });
    const truths = truthsByName(whole.truths);
    // a guess is a name of the copy or, where none is left in it, of the world
    const guesses = [...guessedSites(folder, knowledge)].map(([name, guess]) => {
      const { site } = truths.get(name)!;
      return [name, guess === site || guess === names.nameOf("site", [site])] as const;
    });
    const { tried, hits, most } = cellsWon(folder, guesses, "site");
    expect(tried).toBeGreaterThan(10);
    expect(hits, `${hits} of ${tried}`).toBeLessThanOrEqual(most);
  });

  it.each(["suppress", "generalise"] as const)(
    "wins hidden grades no better than by the commonest, or the copy owns up to it: --rare %s",
    (rare) => {
      const folder = folderOf(whole, { rare, fields: ["sex", "grade"], k: 40 });
      const truths = truthsByName(whole.truths);
      const guesses = [...guessedGrades(folder)].map(
        ([name, grade]) => [name, truths.get(name)!.grade === grade] as const,
      );
      const { tried, hits, most } = cellsWon(folder, guesses, "grade");
      expect(hits, `${hits} of ${tried}`).toBeLessThanOrEqual(most);
      // with cells left out no grade is hidden at all, since the pulleys would tell it
      if (rare === "suppress") expect(tried).toBe(0);
    },
  );

  it("wins nobody by the names, nor the order in time by the order of the rows, nor a date from the disclosure", () => {
    const folder = folderOf(whole);
    const order = orderOf(folder);
    const guessable = whole.truths.flatMap(({ injury, person }) =>
      [injury, person, JSON.stringify(["injury", injury])].flatMap((text) => [
        createHash("sha256").update(text).digest("hex").slice(0, 24),
        createHash("md5").update(text).digest("hex").slice(0, 24),
        createHmac("sha256", Buffer.alloc(32)).update(text).digest("hex").slice(0, 24),
      ]),
    );
    for (const digits of guessable)
      for (const text of Object.values(folder)) expect(text).not.toContain(digits);
    const truths = truthsByName(whole.truths);
    const days = order.map((name) => truths.get(name)!.day);
    const later = days.slice(1).filter((day, place) => day > days[place]!).length;
    const pairs = days.length - 1;
    expect(Math.abs(later - pairs / 2)).toBeLessThanOrEqual(mostHits(pairs, 0.5) - pairs / 2);
    expect(folder["disclosure.json"]).not.toMatch(/20[12]\d-\d\d|site-[abc]|P\d\d\d/);
  });
});
