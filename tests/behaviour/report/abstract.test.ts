import { describe, expect, it } from "vitest";
import { abstractText } from "../../../src/report/abstract.js";
import { renderPage } from "../../../src/report/index.js";
import { cautionLine, syntheticLine } from "../../../src/words/index.js";
import { inputOf, planOf, resultsOf } from "./fixtures.js";

/** The text of a part, from its name to the next. */
const partOf = (text: string, name: string): string =>
  text.split(`**${name}.** `)[1]!.split("\n\n**")[0]!.split(`\n\n_${cautionLine}`)[0]!;

describe("the abstract in the folder of a report", () => {
  const text = abstractText(resultsOf());

  it("has its parts in the order of a journal, the mark of invented data above and the caution beneath", () => {
    expect([...text.matchAll(/^\*\*([A-Z][a-z ]+)\.\*\*/gm)].map(([, name]) => name)).toEqual([
      "Background",
      "Aim",
      "Methods",
      "Results",
      "Limits and conclusions",
    ]);
    expect(text.split("\n")[2]).toBe(`**${syntheticLine}**`);
    expect(text.endsWith(`_${cautionLine}_\n`)).toBe(true);
    expect(abstractText(resultsOf({ plan: planOf({ synthetic: false }) }))).not.toContain(syntheticLine);
  });

  it("says in its results nothing that the answer of the report does not say", async () => {
    const page = await renderPage(inputOf());
    const answer = page
      .slice(page.indexOf('<section id="answer"'), page.indexOf('<section id="care"'))
      .replaceAll(/<[^>]+>/g, " ");
    const paragraphs = partOf(text, "Results").split("\n\n");
    expect(paragraphs.length).toBeGreaterThan(1);
    for (const paragraph of paragraphs) expect(answer).toContain(paragraph);
  });

  it("leaves to the authors what no number knows", () => {
    expect(partOf(text, "Background")).toBe("\\[For the authors: what is known, and why this was asked.\\]");
    for (const name of ["Methods", "Limits and conclusions"])
      expect(partOf(text, name)).toContain("\\[For the authors: ");
  });

  it("names the groups that were compared, and how", () => {
    expect(partOf(text, "Aim")).toContain("did ring and tape differ (by first treatment)?");
    expect(partOf(text, "Methods")).toContain("Groups were compared without adjustment");
    const alone = abstractText(resultsOf({ effects: [] }));
    expect(partOf(alone, "Aim")).not.toContain("differ");
    expect(partOf(alone, "Methods")).not.toContain("compared");
  });

  it("takes nothing in a title for markup", () => {
    const nasty = "*a* [b](c) <script> `d` # e";
    const first = abstractText(resultsOf({ plan: planOf({ title: nasty }) })).split("\n")[0]!;
    expect(first).toBe("# \\*a\\* \\[b\\](c) \\<script\\> \\`d\\` \\# e");
  });
});
