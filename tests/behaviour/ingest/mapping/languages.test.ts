import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { languages, phrasesOf } from "../../../../src/schema/languages/languages.js";
import { plainLetters } from "../../../../src/schema/plain-letters.js";
import { wordings } from "./sheets.js";

const root = new URL("../../../../", import.meta.url);
const textOf = (path: string) => readFileSync(new URL(path, root), "utf8");

/** Every list of phrases in a language, wherever it stands. */
function listsOf(part: object): readonly string[] {
  return Object.values(part).flatMap((value) =>
    typeof value === "string" ? [value] : typeof value === "object" ? listsOf(value as object) : [],
  );
}

describe("the languages of spreadsheets", () => {
  it.each(languages.map(({ name }) => name))("%s is named in the README and in the help of fit", (name) => {
    expect(textOf("README.md")).toContain(name);
    expect(textOf("src/cli/main.ts")).toContain(name);
  });

  it("each has a sheet whose mapping was looked through by eye", () => {
    const withSheet = Object.keys(wordings).map((name) => name.split(",")[0]);
    expect(languages.map(({ name }) => name).filter((name) => !withSheet.includes(name))).toEqual([]);
  });

  it.each(languages.map((language) => [language.name, language] as const))(
    "%s: words are written as they are compared, each once in its list",
    (_, { name, ...language }) => {
      for (const list of listsOf(language)) {
        const phrases = phrasesOf(list);
        expect(new Set(phrases).size, list).toBe(phrases.length);
        for (const phrase of phrases) expect(phrase).toBe(plainLetters(phrase).trim());
      }
    },
  );
});
