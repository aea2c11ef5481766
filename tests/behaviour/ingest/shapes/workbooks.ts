import { workbookBytes } from "../workbooks.js";

/** Invented workbooks of other shapes; SYNTHETIC. What must come out of each stands in the README of this folder. */
export type Rows = readonly (readonly string[])[];

/** One tab a year: the same form in each, its column names and their order changing from year to year. */
export const years: Readonly<Record<string, Rows>> = {
  "2022": [
    [
      "Patient",
      "Date of injury",
      "Side",
      "Finger",
      "Pulley",
      "Grade",
      "Treatment",
      "Treatment start",
      "Full climbing",
      "Last contact",
    ],
    ["Y1", "2022-02-03", "left", "ring", "A2", "3", "ring", "2022-02-10", "2022-06-20", "2022-12-01"],
    ["Y2", "2022-04-11", "right", "middle", "A4", "2", "tape", "2022-04-12", "2022-06-15", "2022-12-02"],
    ["Y3", "2022-09-30", "left", "ring", "A2", "1", "tape", "2022-10-01", "2022-11-10", "2023-01-15"],
  ],
  "2023": [
    [
      "Patient no.",
      "Injury date",
      "Hand",
      "Finger",
      "Grade",
      "Pulley",
      "Therapy",
      "Therapy start",
      "Back to full climbing",
      "Last seen",
      "Remarks",
    ],
    ["Y4", "2023-01-20", "right", "ring", "3", "A2", "ring", "2023-01-27", "2023-06-01", "2023-12-03", ""],
    ["Y5", "2023-03-05", "left", "middle", "2", "A4", "tape", "2023-03-06", "", "2023-11-20", "moved away"],
    ["Y6", "2023-06-14", "left", "ring", "2", "A2", "tape", "2023-06-15", "2023-08-28", "2023-12-10", ""],
    ["Y7", "2023-10-02", "right", "index", "1", "A2", "tape", "2023-10-03", "2023-11-12", "2024-01-20", ""],
  ],
  "2024": [
    [
      "Patient",
      "Hand",
      "Finger",
      "Pulleys",
      "Grade of injury",
      "Injury date",
      "Treatment",
      "Start of treatment",
      "Full climbing",
      "Last contact",
    ],
    ["Y8", "left", "ring", "A2", "3", "2024-01-08", "ring", "2024-01-16", "2024-05-30", "2024-12-05"],
    ["Y9", "right", "middle", "A4", "2", "2024-05-19", "tape", "2024-05-20", "2024-07-25", "2024-12-06"],
    ["Y10", "left", "ring", "A2", "2", "2024-08-23", "tape", "2024-08-24", "", "2024-12-07"],
  ],
};

/** The rows of all years below each other, every cell under its own name, as a person would copy them. */
export const yearsTogether: Rows = [
  [
    "Patient",
    "Injury date",
    "Hand",
    "Finger",
    "Pulley",
    "Grade",
    "Treatment",
    "Treatment start",
    "Full climbing",
    "Last contact",
  ],
  ...years["2022"]!.slice(1),
  ...years["2023"]!.slice(1).map(([id, day, hand, finger, grade, pulley, ...rest]) => [
    id!,
    day!,
    hand!,
    finger!,
    pulley!,
    grade!,
    ...rest.slice(0, 4),
  ]),
  ...years["2024"]!.slice(1).map(([id, hand, finger, pulley, grade, day, ...rest]) => [
    id!,
    day!,
    hand!,
    finger!,
    pulley!,
    grade!,
    ...rest,
  ]),
];

/** One tab a patient: a form with the names of the entries in the first column. */
export const forms: Readonly<Record<string, Rows>> = Object.fromEntries(
  [
    ["F1", "2024-01-05", "left", "ring", "A2", "3", "ring", "2024-01-12", "2024-05-20", "2024-12-01"],
    ["F2", "2024-01-19", "right", "middle", "A4", "2", "tape", "2024-01-20", "2024-04-02", "2024-12-02"],
    ["F3", "2024-02-11", "left", "ring", "A2", "1", "tape", "2024-02-12", "", "2024-11-03"],
  ].map((entries) => [`Patient ${entries[0]}`, entries.map((entry, i) => [yearsTogether[0]![i]!, entry])]),
);

/** Header of two rows with joined cells, a line break in a name, units below, and one person over two rows. */
export const twoLines: Rows = [
  ["Patient", "Injury", "", "", "", "", "Treatment", "", "Tendon-phalanx\ndistance", "", "Follow-up", ""],
  [
    "",
    "Date",
    "Hand",
    "Finger",
    "Pulley",
    "Grade",
    "Kind",
    "Start",
    "at rest",
    "loaded",
    "Full climbing",
    "Last contact",
  ],
  ["", "yyyy-mm-dd", "", "", "", "", "", "yyyy-mm-dd", "mm", "cm", "yyyy-mm-dd", "yyyy-mm-dd"],
  [
    "T1",
    "2024-01-05",
    "left",
    "ring",
    "A2",
    "3",
    "ring",
    "2024-01-12",
    "1.2",
    "0.34",
    "2024-05-20",
    "2024-12-01",
  ],
  [
    "",
    "2024-06-19",
    "right",
    "middle",
    "A4",
    "2",
    "tape",
    "2024-06-20",
    "0.8",
    "0.21",
    "2024-09-02",
    "2024-12-02",
  ],
  [
    "T2",
    "2024-02-11",
    "left",
    "ring",
    "A2",
    "1",
    "tape",
    "2024-02-12",
    "0.5",
    "0.12",
    "2024-04-01",
    "2024-11-03",
  ],
  ["T3", "2024-03-02", "left", "ring", "A2", "3", "ring", "2024-03-08", "1.4", "0.38", "", "2024-12-04"],
];

const joined = ["A1:A2", "B1:F1", "G1:H1", "I1:J1", "K1:L1", "A4:A5"];
const mergeCells = `<mergeCells count="${joined.length}">${joined.map((ref) => `<mergeCell ref="${ref}"/>`).join("")}</mergeCells>`;

export const workbookOf = (sheets: Readonly<Record<string, Rows>>): Uint8Array =>
  workbookBytes({ sheets: Object.entries(sheets).map(([name, rows]) => ({ name, rows })) });

export const twoLinesWorkbook = (): Uint8Array =>
  workbookBytes({ sheets: [{ name: "Ward", rows: twoLines, behind: mergeCells }] });

export const csvOf = (rows: Rows): string => rows.map((row) => row.join(";")).join("\n");

/** As a spreadsheet pastes it transposed. */
export const transposed = (rows: Rows): Rows => rows[0]!.map((_, i) => rows.map((row) => row[i]!));
