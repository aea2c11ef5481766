import { type Command, InvalidArgumentError, Option } from "commander";
import type { ExitCode } from "./exit-codes.js";
import { anyNumber } from "./option-values.js";
import { terminal } from "./terminal.js";

const list = (text: string): string[] => text.split(",").map((one) => one.trim());

/** Names as "ring=ring splint, tape=tape alone". */
function namesByGroup(text: string): Record<string, string> {
  const pairs = list(text).map((pair) => pair.split("=").map((part) => part.trim()));
  if (pairs.some((pair) => pair.length !== 2 || pair.includes("")))
    throw new InvalidArgumentError('Write each as group=name, such as "ring=ring splint, tape=tape alone".');
  return Object.fromEntries(pairs);
}

/** Adds the verb that draws figures of a finished report again. */
export function addFrame(program: Command, run: (done: Promise<ExitCode>) => Promise<void>): void {
  program
    .command("frame")
    .argument("<folder>", "a report folder")
    .addOption(
      new Option("--for <place>", "where the figures will be shown").choices([
        "screen",
        "slide",
        "poster",
        "one-column",
        "two-columns",
      ]),
    )
    .option(
      "--figures <ids>",
      "figures to draw, as --list shows them, separated by commas; by default all",
      list,
    )
    .option("--as <formats>", "svg, png, pdf, separated by commas; by default all three", list)
    .option("--dpi <dots>", "resolution of PNG files: 300 or 600", anyNumber)
    .option("--groups <groups>", "groups to draw, in this order, separated by commas", list)
    .option(
      "--names <names>",
      'names of your own for groups, such as "ring=ring splint, tape=tape alone"',
      namesByGroup,
    )
    .option("--until <weeks>", "last week on the axis of time", anyNumber)
    .option("--title <text>", "a title of your own, for a single figure")
    .option(
      "--without <parts>",
      "leave out title, band, numbers-at-risk or usual-windows, separated by commas",
      list,
    )
    .option("--colours <set>", "standard, ordered or grey, or your own as #1f1ca8,#bb5373", list)
    .option(
      "--settings <file>",
      "a file with these choices (YAML); options of the command line come before it",
    )
    .option(
      "--into <folder>",
      "folder for the figures; by default 'figures-' and the place, beside the report",
    )
    .option("--list", "list the figures and groups of the report; write nothing")
    .option("--replace", "replace earlier figures in that folder")
    .description("draw figures of a report again, at the size of the slide, poster or journal they go into")
    .addHelpText(
      "after",
      `
Draws from the numbers of a finished report; nothing is computed again, and what the report leaves out stays left out. Each
figure comes as SVG (texts stay texts), PNG (its resolution is in the file) and PDF (lines and fonts), with a text file that
holds its caption and the figure in words. A slide is 16 : 9 with no text below 18 points; a poster's panel is 400 mm wide with
no text below 24 points; a journal's columns are 85 and 180 mm wide with texts of 7 to 9 points. Titles of the last two, and
what does not fit on a slide, are in the caption. Put the caution on times of return wherever you show one.
  pulley-outcomes frame my-audit/report --list
  pulley-outcomes frame my-audit/report --for slide
  pulley-outcomes frame my-audit/report --for one-column --figures return-curve-compared --as pdf --colours grey
  pulley-outcomes frame my-audit/report --for slide --groups tape,ring --names "ring=ring splint" --until 20
A file for --settings holds the same choices:
  for: slide
  figures: [return-curve-compared]
  groups: [tape, ring]
  names: { ring: ring splint }
  until_weeks: 20
  show: { band: true, numbers_at_risk: true, usual_windows: false, title: true }
  colours: ["#1f1ca8", "#bb5373"]`,
    )
    .action(async (folder, options) =>
      run((await import("./verbs/frame.js")).frame(folder, options, terminal)),
    );
}
