import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { command, filesIn, folderWith, soundStudy } from "./run-command.js";

const two = (number: number) => String(number).padStart(2, "0");
/** Twelve injuries of grade 2 under tape and twelve of grade 3 under a ring. */
const sheet = [
  "person,injury_date,hand,finger,pulleys,grade,treatment,treatment_start,full,last_contact",
  ...Array.from(
    { length: 24 },
    (_, i) =>
      `P${two(i)},2024-03-${two(1 + (i % 20))},left,ring,A4,${i < 12 ? "2,tape" : "3,ring"},2024-03-25,2024-05-${two(1 + i)},2024-11-18`,
  ),
].join("\n");

let folder = "";
beforeAll(async () => {
  folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": `${sheet}\n` });
  const { code, stderr } = await command(folder, "report", "study.yaml");
  expect(code, stderr).toBe(0);
  // a whole report, with its drawings
}, 240_000);
const bytes = (path: string) => readFileSync(join(folder, path));
const frame = (...options: string[]) => command(folder, "frame", "report", ...options);

describe("figures of a finished report, on the command line", () => {
  it("lists figures and groups, and writes nothing", async () => {
    const before = filesIn(folder);
    const { code, stdout } = await frame("--list");
    expect(code).toBe(0);
    expect(stdout).toContain("return-curve-all: How long until full climbing?");
    expect(filesIn(folder)).toEqual(before);
  });

  it("draws a slide as SVG, PNG and PDF with its caption, the same bytes twice", async () => {
    const options = ["--for", "slide", "--figures", "return-curve-all", "--into"];
    expect((await frame(...options, "one")).code).toBe(0);
    expect((await frame(...options, "two")).code).toBe(0);
    for (const end of ["svg", "png", "pdf", "txt"]) {
      const name = `return-curve-all-slide.${end}`;
      expect(bytes(`one/${name}`).equals(bytes(`two/${name}`)), name).toBe(true);
    }
    const pdf = bytes("one/return-curve-all-slide.pdf").toString("latin1");
    // 13.333 by 7.5 inches, 72 points to the inch; an embedded TrueType font; no day but the fixed one
    expect(pdf).toContain("/MediaBox [0 0 960 540]");
    expect(pdf).toContain("/FontFile2");
    expect(pdf.match(/D:\d{4}/g)).toEqual(["D:1970", "D:1970"]);
    // 300 dots an inch are 11811 a metre, written in the pHYs chunk (PNG specification, W3C 2003, 11.3.5.3)
    const png = bytes("one/return-curve-all-slide.png");
    expect(png.readUInt32BE(16)).toBe(4000);
    expect(png.readUInt32BE(png.indexOf("pHYs") + 4)).toBe(11811);
    expect(bytes("one/return-curve-all-slide.svg").toString()).toContain('width="338.67mm" height="190.5mm"');
    const text = bytes("one/return-curve-all-slide.txt").toString();
    expect(text).toContain("not advice for one finger. A licensed clinician");
    expect(text).toContain("Method: share back");
    expect(text).toContain("of 24 people");
  });

  it("names what exists where something does not, and writes nothing", async () => {
    const before = filesIn(folder);
    const figure = await frame("--figures", "curve");
    expect(figure.code).toBe(3);
    expect(figure.stderr).toContain("There are: return-curve-all,");
    const group = await frame("--groups", "brace");
    expect(group.code).toBe(3);
    expect(group.stderr).toContain('"brace" is no group of this report.');
    expect((await frame("--as", "gif")).stderr).toContain("Write one of: svg, png, pdf.");
    expect(filesIn(folder)).toEqual(before);
  });

  it("says what speaks against colours of one's own, and draws with them", async () => {
    const { code, stdout } = await frame(
      ...["--figures", "return-curve-grade", "--as", "svg", "--colours", "#ffee00,#00ff00", "--into", "pale"],
    );
    expect(code).toBe(0);
    expect(stdout).toContain("#ffee00 is pale on white");
    expect(stdout).toContain("hard to tell apart with protanopia");
    expect(bytes("pale/return-curve-grade-screen.svg").toString()).toContain('"#ffee00"');
  });
});
