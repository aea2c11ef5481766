import { describe, expect, it } from "vitest";
import { type IdentifyingKind, scanPseudonym, scanText } from "../../../src/schema/index.js";

const kindsIn = (text: string): IdentifyingKind[] => scanText(text).map(({ kind }) => kind);

describe("what in a text may identify a person (every text is invented)", () => {
  it.each<readonly [IdentifyingKind, readonly string[]]>([
    [
      "e-mail address",
      ["write to anna.berg@example.org please", "k_novak+wall@mail.example.co.uk", "berg (at) example.org"],
    ],
    ["web address", ["see https://example.org/u/17", "www.example.org/profile"]],
    ["account name", ["posts as @wallrat_17", "insta: @crimp.queen"]],
    [
      "telephone number",
      [
        "call 0512 345 678",
        "+43 660 1234567",
        "(020) 7946 0018",
        "tel 555-010-4477",
        "+1 (555) 010-4477",
        "0664/123 45 67",
        "at home,0512 345 678",
      ],
    ],
    [
      "date of birth",
      [
        "born 12.3.1988",
        "DOB: 1988-03-12",
        "geb. 12.03.88",
        "née le 12/03/1988",
        "nato il 12/3/1988",
        "*12.3.1988",
        "born 1988",
      ],
    ],
    [
      "calendar date",
      [
        "fell on 12.3.2024",
        "again 2024-03-12",
        "seen 3 March 2024",
        "on 12/03/24",
        "again,12.3.2024",
        "am.12.3.24",
      ],
    ],
    [
      "record number",
      [
        "MRN 004512",
        "Fall-Nr. 2024/118",
        "NHS no 943 476 5919".replaceAll(" ", ""),
        "patient no. A12345",
        "AHV 756.1234.5678.97",
      ],
    ],
    ["long number", ["see 8812345 in the archive"]],
    [
      "name after a title",
      [
        "referred by Dr. Berg",
        "Frau Huber called",
        "with Mme Dupont-Lefèvre",
        "Herrn Prof. Dr. Maier",
        "señora Ibáñez",
      ],
    ],
    [
      "name after a salutation",
      ["Dear Anna, thank you", "Liebe Jana", "Cher Luc", "Estimado Pablo", "Hei Kari"],
    ],
    ["name after a label", ["Name: Berg", "patient Anna Berg", "signed: Novák", "gez. Huber"]],
    [
      "postcode",
      ["lives in SW1A 1AA", "A-6020 Innsbruck", "80331 München", "1017 AB", "K1A 0B1", "CO 80302"],
    ],
    [
      "street address",
      ["Hauptstraße 12", "12 Rock Lane", "14 rue de la Paix", "Via Roma 5", "Marktgasse 7a"],
    ],
  ])("%s", (kind, texts) => {
    for (const text of texts) expect(kindsIn(text), text).toContain(kind);
  });

  it.each([
    "full crimp on a small edge, foot slipped",
    "A2 and A3, loaded 3.4 mm, rest 1.2 mm",
    "back to 7a+ after 13 weeks, then 6c",
    "tape 6 wks, ring 8 wks, hours 20-22",
    "pain 3/10 then 1/10; QuickDASH 18.2",
    "5.12a redpoint, V7 boulder, 6A+ to 7A",
    "Grade IV, a or b not said",
    "moved flat, swollen, cold hands",
    "Zugfestigkeit gut, kein Schmerz beim Klettern",
    "2-3 sessions a week of 60-90 min",
    "PIP 0-100, DIP 0-70, grip 45.5 kg (48.0 kg)",
    "4-6-8-10-12 mm edges, sets of 10 12 14 16",
    "",
  ])("nothing in: %s", (text) => {
    expect(kindsIn(text)).toEqual([]);
  });

  it("tells kind and place, and never the text", () => {
    const text = "call Dr. Berg on 0512 345 678";
    const found = scanText(text);
    expect(found).toEqual([
      { kind: "name after a title", from: 6, length: 8 },
      { kind: "telephone number", from: 18, length: 12 },
    ]);
    expect(text.slice(5, 13)).toBe("Dr. Berg");
    expect(JSON.stringify(found)).not.toContain("Berg");
  });

  it("tells of overlapping findings one, the graver", () => {
    expect(kindsIn("anna@example.org")).toEqual(["e-mail address"]);
    expect(kindsIn("DOB 12.03.1988")).toEqual(["date of birth"]);
  });

  it("gets to the end of texts made to keep it busy", () => {
    const texts = [
      "a".repeat(60_000),
      "1 ".repeat(50_000),
      "A-".repeat(50_000),
      "@".repeat(50_000),
      "Dr. ".repeat(25_000),
      "1.".repeat(50_000),
      "Ab ".repeat(30_000),
      "a.a@a.".repeat(10_000),
    ];
    for (const text of texts) expect(scanText(text)).toBeInstanceOf(Array);
  });
});

describe("pseudonyms that speak", () => {
  it.each([
    ["anna.berg@example.org", "e-mail address"],
    ["Anna Berg", "name"],
    ["Berg, Anna", "name"],
    ["anna_berg", "name"],
    ["Novák", "name"],
    ["A.B.", "initials"],
    ["AB", "initials"],
    ["AB 12.03.1988", "initials and date of birth"],
    ["ab120388", "initials and date of birth"],
    ["AB1988", "initials and date of birth"],
    ["19880312AB", "initials and date of birth"],
    ["12.03.1988", "date of birth"],
    ["880312", "date of birth"],
    ["7561234567897", "number of a record"],
  ])("%s looks like: %s", (id, looks) => {
    expect(scanPseudonym(id)).toBe(looks);
  });

  it.each([
    "P09",
    "P001",
    "site-a-014",
    "x7f3q",
    "1042",
    "14",
    "a3",
    "Patient 12",
    "case-7",
    "i3f09ac21",
    "K-17",
  ])("%s says nothing", (id) => {
    expect(scanPseudonym(id)).toBeNull();
  });
});
