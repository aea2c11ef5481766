import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { schemaErrors } from "../../json-schemas.js";
import { command, filesIn, folderWith, soundSheet, soundStudy } from "./run-command.js";

const start = () => folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });

describe("sharing a study", () => {
  let folder = "";
  beforeAll(async () => {
    folder = start();
    const { code, stderr } = await command(folder, "share", "study.yaml", "--into", "copy");
    expect(code, stderr).toBe(0);
  });

  it("writes a study, its tables, and what it discloses; and a key for its owner alone, elsewhere", () => {
    expect(filesIn(join(folder, "copy"))).toEqual([
      "disclosure.html",
      "disclosure.json",
      "injuries.csv",
      "manifest.json",
      "study.yaml",
      "treatments.csv",
    ]);
    expect(statSync(join(folder, "sharing.key")).mode & 0o777).toBe(0o600);
    const written = filesIn(join(folder, "copy")).map((path) =>
      readFileSync(join(folder, "copy", path), "utf8"),
    );
    for (const text of written) expect(text).not.toMatch(/P0[1-4]|2024-|sheet\.csv/);
    const key = readFileSync(join(folder, "sharing.key"), "utf8").split("\n")[1]!;
    for (const text of written) expect(text).not.toContain(key);
  });

  it("says what it discloses as schemas/disclosure.schema.json has it", () => {
    expect(schemaErrors(join(folder, "copy/disclosure.json"), "disclosure.schema.json")).toEqual([]);
    expect(schemaErrors(join(folder, "copy/manifest.json"), "disclosure.schema.json")).not.toEqual([]);
  });

  it("the copy can be checked and reported on", async () => {
    expect((await command(folder, "check", "copy/study.yaml")).code).toBe(0);
    expect((await command(folder, "report", "copy/study.yaml", "--into", "report")).code).toBe(0);
    const page = readFileSync(join(folder, "report/report.html"), "utf8");
    expect(page).toContain("De-identified copy: A small audit");
  });

  it("gives the same bytes with the same key, and other names with another", async () => {
    expect((await command(folder, "share", "study.yaml", "--into", "again")).code).toBe(0);
    expect((await command(folder, "share", "study.yaml", "--into", "other", "--key", "other.key")).code).toBe(
      0,
    );
    const textIn = (place: string, path: string) => readFileSync(join(folder, place, path), "utf8");
    for (const path of filesIn(join(folder, "copy")))
      expect(textIn("again", path), path).toBe(textIn("copy", path));
    expect(textIn("other", "injuries.csv")).not.toBe(textIn("copy", "injuries.csv"));
  });

  it("the page has no script, opens no connection, and says what it is not", () => {
    const page = readFileSync(join(folder, "copy/disclosure.html"), "utf8");
    expect(page).not.toMatch(/<script|https?:\/\/|javascript:/i);
    expect(page).toContain("default-src &#39;none&#39;".replaceAll("&#39;", "'"));
    for (const words of [
      "k-anonymity is no guarantee",
      "law, consent, ethics approval",
      "not legal advice",
    ]) {
      expect(page).toContain(words);
    }
  });

  it.each(["generalise", "suppress"])("--rare %s is followed and told", async (rare) => {
    const place = `rare-${rare}`;
    const { code, stdout } = await command(
      folder,
      "share",
      "study.yaml",
      "--into",
      place,
      "--rare",
      rare,
      "-k",
      "2",
    );
    expect(code).toBe(0);
    expect(stdout).toContain("shared by at least 2 people");
    expect((await command(folder, "check", `${place}/study.yaml`)).code).toBe(0);
  });

  it("a site that the study compares by has its new name in the study of the copy", async () => {
    const sites = folderWith({
      "sheet.csv": soundSheet
        .replace("person,", "person,site,")
        .replaceAll(/^(P0[12]),/gm, "$1,site-a,")
        .replaceAll(/^(P0[34]),/gm, "$1,site-b,"),
      "study.yaml": `${soundStudy}compare:\n  by: site_id\n  groups: [site-a, site-b]\n  reference: site-a\n`,
    });
    expect((await command(sites, "share", "study.yaml", "--into", "copy")).code).toBe(0);
    expect(readFileSync(join(sites, "copy/study.yaml"), "utf8")).not.toContain("site-a");
    expect((await command(sites, "report", "copy/study.yaml")).code).toBe(0);
    const { curves } = JSON.parse(readFileSync(join(sites, "copy/report/results.json"), "utf8"));
    const compared = curves.find(({ family }: { family: string }) => family === "compared");
    expect(compared.curves.map(({ n }: { n: number }) => n)).toEqual([2, 2]);
  });
});

describe("the key is refused, and nothing written,", () => {
  const refused = async (folder: string, ...words: readonly string[]) => {
    const { code, stderr } = await command(folder, "share", "study.yaml", "--into", "copy", ...words);
    expect(code).toBe(3);
    expect(existsSync(join(folder, "copy", "injuries.csv"))).toBe(false);
    return stderr;
  };

  it("when it would lie in the folder that leaves, also by a link", async () => {
    const folder = start();
    expect(await refused(folder, "--key", "copy/my.key")).toContain("inside");
    mkdirSync(join(folder, "copy"));
    symlinkSync(join(folder, "copy"), join(folder, "elsewhere"));
    expect(await refused(folder, "--key", "elsewhere/my.key")).toContain("inside");
  });

  it.skipIf(process.platform === "win32")("when others may read it", async () => {
    const folder = start();
    expect((await command(folder, "share", "study.yaml", "--into", "first")).code).toBe(0);
    chmodSync(join(folder, "sharing.key"), 0o640);
    expect(await refused(folder)).toContain("chmod 600");
  });

  it("when it is no key", async () => {
    const folder = start();
    writeFileSync(join(folder, "sharing.key"), "secret\n", { mode: 0o600 });
    expect(await refused(folder)).toContain("is not a key file of this toolkit");
  });

  it("and a new one is taken back when the copy cannot be written", async () => {
    const folder = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet, "copy/else.txt": "" });
    expect((await command(folder, "share", "study.yaml", "--into", "copy")).code).toBe(4);
    expect(existsSync(join(folder, "sharing.key"))).toBe(false);
  });
});

describe("what cannot be followed is said", () => {
  it.each([
    [["--fields", "sex,shoe_size"], '"shoe_size" cannot be counted'],
    [["-k", "1"], "-k 1 cannot be used"],
    [["--age-band", "0"], "--age-band 0 cannot be used"],
    [["--oldest", "91"], "--oldest 91 cannot be used"],
  ])("%s", async (words, said) => {
    const folder = start();
    const { code, stderr } = await command(folder, "share", "study.yaml", "--into", "copy", ...words);
    expect(code).toBe(2);
    expect(stderr).toContain(said);
    expect(existsSync(join(folder, "copy"))).toBe(false);
    expect(existsSync(join(folder, "sharing.key"))).toBe(false);
  });

  it("when no injury can be used", async () => {
    const folder = start();
    writeFileSync(join(folder, "sheet.csv"), soundSheet.replaceAll(/,2,(ring|tape)/g, ",IV,$1"));
    const { code, stderr } = await command(folder, "share", "study.yaml", "--into", "copy");
    expect(code).toBe(3);
    expect(stderr).toContain("nothing to copy");
    rmSync(folder, { recursive: true });
  });
});
