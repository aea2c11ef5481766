import { describe, expect, it } from "vitest";
import { readFileAsGrid, shapeSheet } from "../../../../src/ingest/index.js";
import { proposeMapping } from "../../../../src/ingest/mapping/index.js";
import { proposalFor } from "./open-sheet.js";

async function proposalOf(text: string) {
  const { grid } = await readFileAsGrid({ file: "sheet.csv", bytes: new TextEncoder().encode(text) });
  return proposeMapping(shapeSheet(grid!)!, { name: "trial", table: "single_sheet" });
}

const askedOf = ({ mapping }: Awaited<ReturnType<typeof proposalFor>>) =>
  Object.fromEntries(
    mapping.undecided
      .filter(({ decides }) => decides[0]![0] === "meaning")
      .map(({ decides, choices }) => [decides[0]![1], Object.keys(choices)]),
  );

describe("a guess is sure only if no other column could be it", () => {
  it("a column that could be what every row needs is asked about, and so is every other column of dates", async () => {
    const proposal = await proposalFor("04-columns-that-could-be-others.csv");
    const { columns } = proposal.mapping;
    expect(columns.treatment_end).toBeUndefined();
    expect(columns.last_contact).toBeUndefined();
    const asked = askedOf(proposal);
    expect(asked["Heard of until"]).toEqual(expect.arrayContaining(["treatment_end", "last_contact"]));
    expect(asked["Everything again after"]).toEqual(expect.arrayContaining(["full", "previous"]));
    expect(asked["Ring made"]).toBeDefined();
  });

  it("nothing that is filled is left without a question or a use, but what is listed", async () => {
    const { mapping, leftOut } = await proposalFor("04-columns-that-could-be-others.csv");
    expect(leftOut).toEqual([]);
    expect(mapping.not_used).toEqual([]);
  });

  it("dates after the last contact are no end of a treatment", async () => {
    const proposal = await proposalOf(
      [
        "Climber;Injury date;Side;Finger;Pulley;Grade;Treatment;Treatment start;Full climbing;Last visit;Heard of until",
        "C1;04.03.2024;left;ring;A2;3;ring;10.03.2024;02.09.2024;02.10.2024;02.12.2024",
        "C2;11.03.2024;right;middle;A4;2;tape;12.03.2024;20.05.2024;10.06.2024;10.12.2024",
        "C3;18.03.2024;left;ring;A2;3;ring;26.03.2024;;15.07.2024;15.12.2024",
        "",
      ].join("\n"),
    );
    expect(proposal.mapping.columns.treatment_end).toBeUndefined();
    expect(askedOf(proposal)["Heard of until"]).toContain("treatment_end");
  });

  it("the day of a ring is not taken for that of the first scan", async () => {
    const proposal = await proposalOf(
      [
        "Climber;Injury date;Side;Finger;Pulley;Grade;Treatment;Treatment start;First ring date;Full climbing;Last contact",
        "C1;04.03.2024;left;ring;A2;3;ring;10.03.2024;10.03.2024;02.09.2024;02.12.2024",
        "C2;11.03.2024;right;middle;A4;2;tape;12.03.2024;;20.05.2024;10.12.2024",
        "C3;18.03.2024;left;ring;A2;3;ring;26.03.2024;27.03.2024;;15.12.2024",
        "",
      ].join("\n"),
    );
    expect(proposal.mapping.columns.date_first_scan).toBeUndefined();
    expect(askedOf(proposal)["First ring date"]).toContain("date_first_scan");
  });
});
