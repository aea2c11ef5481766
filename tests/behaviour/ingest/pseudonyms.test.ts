import { describe, expect, it } from "vitest";
import { linkRows } from "../../../src/ingest/index.js";
import { pseudonymIdentifies } from "../../../src/ingest/rules/identifying.js";
import { injuryOf, tablesOf } from "../../reference/cohort/history.js";

const kindsAmong = (ids: readonly string[]) => {
  const injuries = ids.map((person_id, i) => injuryOf({ injury_id: `${i}`, person_id }));
  const used = linkRows(tablesOf({ injuries }));
  return [...pseudonymIdentifies(used, { thresholdMm: 2 })].map(({ facts }) => facts.kind);
};

/** Multiples of a prime to a modulus spread over it: figures that look drawn, and are the same in every run. */
const spread = (n: number) =>
  Array.from({ length: n }, (_, i) => String(((i + 1) * 387_421) % 1_000_000).padStart(6, "0"));

const births = Array.from({ length: 40 }, (_, i) => {
  const two = (value: number) => String(value).padStart(2, "0");
  return `${two(1 + ((i * 7) % 28))}${two(1 + ((i * 5) % 12))}${two(60 + ((i * 11) % 40))}`;
});

describe("ids of figures alone", () => {
  it.each([
    [
      "3,000 running numbers in which nearly always a day can be read",
      Array.from({ length: 3000 }, (_, i) => `${100_001 + i}`),
    ],
    ["3,000 figures spread over all of six digits", spread(3000)],
  ])("are no dates of birth: %s", (_, ids) => {
    expect(kindsAmong(ids)).toEqual([]);
  });

  it("are asked about, each, where they are dates of birth", () => {
    expect(kindsAmong(births)).toEqual(births.map(() => "date of birth"));
    expect(kindsAmong(["120388", "311299"])).toEqual(["date of birth", "date of birth"]);
  });

  it("of one kind say nothing of ids of another: a date with points among numbers is asked about", () => {
    expect(kindsAmong([...spread(50), "12.03.1988", "AB 12.03.1988"])).toEqual([
      "date of birth",
      "initials and date of birth",
    ]);
  });
});
