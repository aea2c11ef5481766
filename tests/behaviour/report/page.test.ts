import { beforeAll, describe, expect, it } from "vitest";
import { escapeText } from "../../../src/report/escape.js";
import { renderPage } from "../../../src/report/index.js";
import { cautionAgainLine, cautionLine, syntheticLine } from "../../../src/words/index.js";
import { drawing, inputOf, planOf, sha256 } from "./fixtures.js";

let page = "";
beforeAll(async () => {
  page = await renderPage(inputOf());
});

const all = (pattern: RegExp, text = page): string[] =>
  [...text.matchAll(pattern)].map((match) => match[1] ?? match[0]);
const sectionText = (id: string): string =>
  new RegExp(`<section id="${id}"[\\s\\S]*?</section>`).exec(page)?.[0] ?? "";

describe("the page stands alone", () => {
  it("has no script, no handler, no inline style, no address of anything outside", () => {
    expect(page).not.toMatch(/<script/i);
    expect(page).not.toMatch(/<[^>]*\son[a-z]+=/i);
    expect(page).not.toMatch(/<[^>]*\sstyle=/i);
    expect(page).not.toMatch(/https?:|\/\/[a-z]|@import|<link|<iframe|<object|<base/i);
    expect(all(/\s(?:href|src)="([^"]*)"/g).filter((target) => !target.startsWith("#"))).toEqual([]);
  });

  it("has a policy that names its one style sheet and nothing else", () => {
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? "";
    const digest = Buffer.from(sha256(style), "hex").toString("base64");
    expect(page).toContain(
      `content="default-src 'none'; style-src 'sha256-${digest}'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'"`,
    );
    expect(all(/<style/g)).toHaveLength(1);
  });

  it("a digest in another form is refused: the page would lose its looks without a word", async () => {
    await expect(renderPage({ ...inputOf(), sha256: () => "abc" })).rejects.toThrow("64 hexadecimal digits");
  });
});

describe("the page can be found one's way in", () => {
  it("every link leads to an id, and every id is there once", () => {
    const ids = all(/\sid="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    for (const target of all(/href="#([^"]+)"/g)) expect(ids).toContain(target);
    for (const labels of all(/aria-labelledby="([^"]+)"/g))
      for (const label of labels.split(" ")) expect(ids).toContain(label);
  });

  it("has a language, one main part, one heading of the first rank, and a contents list of all sections", () => {
    expect(page).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(all(/<main>/g)).toHaveLength(1);
    expect(all(/<h1>/g)).toHaveLength(1);
    const listed = all(/href="#([^"]+)"/g, /<nav[\s\S]*?<\/nav>/.exec(page)?.[0]);
    expect(listed).toEqual(all(/<section id="([^"]+)"/g));
    expect(listed.slice(0, 4)).toEqual(["answer", "care", "counted", "trial"]);
    expect(listed).toHaveLength(17);
  });

  it("every table has a caption and heads with a scope; every row has a head", () => {
    const tables = all(/<table>[\s\S]*?<\/table>/g);
    expect(tables.length).toBeGreaterThan(12);
    for (const table of tables) {
      expect(table).toMatch(/^<table>\n<caption>[^<]+<\/caption>\n<thead>/);
      expect(table.match(/<th\b(?! scope="(?:col|row|rowgroup)")/g)).toBeNull();
      for (const row of all(/<tr[^>]*>(?!<td colspan)[\s\S]*?<\/tr>/g, table))
        expect(row).toMatch(/<th scope=/);
    }
  });

  it("tags are closed in the order in which they were opened", () => {
    const void_ = new Set(["meta", "br", "circle", "input", "line", "path", "rect"]);
    const open: string[] = [];
    for (const [, closing, name = "", rest = ""] of page.matchAll(/<(\/?)([a-zA-Z][a-zA-Z0-9]*)([^>]*)>/g)) {
      if (closing === "/") {
        if (!void_.has(name)) expect(open.pop(), `closing ${name}`).toBe(name);
      } else if (!void_.has(name) && !rest.endsWith("/")) open.push(name);
    }
    expect(open).toEqual([]);
  });
});

describe("what stands behind an answer is folded away", () => {
  /** A text without its parts that are folded away, which may hold further ones. */
  const shown = (text: string): string => {
    let depth = 0;
    return text
      .split(/(<details[^>]*>|<\/details>)/)
      .filter((part) => {
        if (part.startsWith("<details")) depth += 1;
        if (part === "</details>") depth -= 1;
        return depth === 0 && part !== "</details>";
      })
      .join("");
  };
  const words = (text: string): number =>
    text
      .replace(/<style>[\s\S]*?<\/style>|<[^>]*>/g, " ")
      .split(/\s+/)
      .filter((word) => word !== "").length;

  it("most of the page is, and nothing of the answer but the words of its figure", () => {
    expect(words(shown(page))).toBeLessThan(words(page) / 2);
    expect(sectionText("answer")).not.toContain('<details class="behind">');
    expect(shown(sectionText("answer"))).toContain(cautionLine);
  });
  it("each part says in its one line what is in it, and none holds another", () => {
    const lines = all(/<details class="behind">\n<summary>([^<]+)<\/summary>/g);
    expect(lines.length).toBe(all(/<details class="behind">/g).length);
    expect(new Set(lines).size).toBe(lines.length);
  });
  it("one box opens all of them without a script, on paper too", () => {
    expect(page).toMatch(/<label><input type="checkbox" id="unfold"> Show everything[^<]+<\/label>/);
    expect(page).toContain(
      "body:has(#unfold:checked) .behind::details-content { content-visibility: visible;",
    );
  });
});

describe("cautions and marks", () => {
  it("the caution stands directly beneath the plain words", () => {
    expect(sectionText("answer")).toMatch(
      new RegExp(
        `<div class="plain-words">[\\s\\S]*?</div>\\s*<p class="caution">${cautionLine.slice(0, 40)}`,
      ),
    );
  });
  it.each(["follow-up", "curves", "after", "effects"])(
    "its first line stands once in %s, which shows times of return as well",
    (id) => {
      expect(sectionText(id).split(cautionAgainLine)).toHaveLength(2);
      expect(sectionText(id)).not.toContain(cautionLine);
    },
  );
  it("invented data are marked at the top and on every printed page; others are not", async () => {
    expect(page).toContain(`<p class="synthetic-banner">${syntheticLine}</p>`);
    expect(page).toMatch(/@media print[\s\S]*?\.print-mark \{\s*display: block;\s*position: fixed/);
    expect(page).toContain("<title>SYNTHETIC: ");
    const real = await renderPage(inputOf({ plan: planOf({ synthetic: false }) }));
    expect(
      real.replace(/<style>[\s\S]*?<\/style>/, "").replace("Invented data carry the word SYNTHETIC", ""),
    ).not.toContain("SYNTHETIC");
  });
  it("never says that a treatment caused a difference, or that there is none", () => {
    const words = sectionText("answer") + sectionText("effects");
    expect(words.replaceAll(/not (?:shown to be|show what) caused/g, "")).not.toMatch(
      /caused a|was caused|is caused|no significant|proves/,
    );
  });
});

describe("text from data stays text", () => {
  const nasty = `<img src=x onerror="alert('1')"></style><script>&\u202e`;
  it("in the title, groups, labels, file and column names, strata and what a doubt says", async () => {
    const base = inputOf();
    const { accounting, queries, cohort, tests, effects, distances } = base.results;
    const results = {
      plan: planOf({
        title: nasty,
        data: { injuries: nasty },
        who: { sites: [nasty] },
        compare: { by: "site_id", groups: [nasty, "b"], reference: "b" },
      }),
      accounting: {
        ...accounting,
        tables: accounting.tables.map((table) => ({ ...table, table: nasty, file: nasty })),
        comparison: {
          ...accounting.comparison,
          left_out: [
            { code: `not-compared: ${nasty}`, n: 6 },
            { code: nasty, n: 0 },
          ],
        },
      },
      queries: queries.map((query) => ({
        ...query,
        file: nasty,
        column: nasty,
        expected: nasty,
        correction: nasty,
      })),
      cohort: {
        ...cohort,
        by: nasty,
        reference: nasty,
        groups: cohort.groups.map((group) => ({ ...group, label: nasty })),
        rows: cohort.rows.map((row) => ({ ...row, variable: nasty, term: nasty, unit: nasty })),
      },
      curves: base.results.curves.map((family) => ({
        ...family,
        curves: family.curves.map((curve) => ({ ...curve, label: nasty })),
      })),
      tests: tests.map((test) => ({
        ...test,
        strata: [nasty],
        groups: test.groups.map((group) => ({ ...group, label: nasty })),
      })),
      effects: effects.map((effect) => ({
        ...effect,
        compared: nasty,
        reference: nasty,
        adjusted_for: [nasty],
        left_out: [{ stratum: nasty, n: 1, reason: "one-group" as const }],
      })),
      distances:
        distances === null
          ? null
          : {
              ...distances,
              pulley: nasty,
              position: nasty,
              groups: distances.groups.map((group) => ({ ...group, label: nasty })),
            },
      warnings: base.results.warnings.map((warning) => ({
        ...warning,
        facts: { ...warning.facts, strata: nasty, rule: nasty, field: nasty },
      })),
    };
    const input = inputOf(results);
    const figures = input.figures.map((figure) => ({ ...figure, title: nasty, description: nasty }));
    const hostile = await renderPage({ ...input, figures, version: nasty });
    expect(hostile).not.toMatch(/<img|<script|<\/style><|\u202e/);
    expect(all(/<style/g, hostile)).toHaveLength(1);
    expect(
      hostile.split(
        "&lt;img src=x onerror=&quot;alert(&#39;1&#39;)&quot;&gt;&lt;/style&gt;&lt;script&gt;&amp;\\u202e",
      ).length,
    ).toBeGreaterThan(30);
  });

  it("escapes what HTML reads, and the marks that turn the reading direction", () => {
    expect(escapeText(`<b> & "x" 'y'\u0000\u202e\u2066 ok\n`)).toBe(
      "&lt;b&gt; &amp; &quot;x&quot; &#39;y&#39;\\u0000\\u202e\\u2066 ok\n",
    );
  });
});

describe("drawings", () => {
  const withSvg = (svg: string) => {
    const input = inputOf();
    return renderPage({ ...input, figures: input.figures.slice(0, 1).map((figure) => ({ ...figure, svg })) });
  };
  it.each([
    ["<svg><script>x</script></svg>", "a script"],
    ["<svg><foreignObject></foreignObject></svg>", "foreign markup"],
    [`<svg onload="x"></svg>`, "an event handler"],
    [`<svg><a href="elsewhere"></a></svg>`, "a link to somewhere else"],
    [`<svg><path fill="url(elsewhere#a)"></path></svg>`, "a resource from somewhere else"],
    [`<svg><g id="other"></g></svg>`, `has the id "other"`],
  ])("%s is refused", async (svg, words) => {
    await expect(withSvg(svg)).rejects.toThrow(words);
  });
  it("a label that speaks of such things is only a label", async () => {
    const label = `<svg><text aria-label="onload=1 url(x) href=y">&lt;script&gt; onload="x"</text></svg>`;
    expect(await withSvg(label)).toContain("&lt;script&gt; onload=");
  });
  it("loses its declarations, and its style attributes become drawing attributes", () => {
    expect(drawing("invented-all")).toContain(`style="stroke-dasharray: 6 3"`);
    expect(page).toContain(`stroke-dasharray="6 3"`);
    expect(page).not.toContain("xmlns");
  });
});

describe("numbers come from the results", () => {
  it.each([
    ["curves", "55 %"],
    ["curves", "44 to 67 %"],
    ["curves", "13.5 weeks (94 days)"],
    ["curves", "21.31"],
    ["effects", "1.41"],
    ["effects", "0.88 to 2.26"],
    ["effects", "\u22129.0 days"],
    ["effects", "\u22124 to 32 points"],
    ["effects", "25 of 31"],
    ["distances", "\u22120.42 mm"],
    ["distances", "3.41 \u00b1 0.81"],
    ["distances", "< 0.001"],
    ["cohort", "14 (58 %)"],
    ["cohort", "\u22120.21"],
    ["counted", "64 = 63 + 1"],
    ["counted", "61 = 55 + 4 + 2"],
    ["follow-up", "87 %"],
    ["follow-up", "12 of 31"],
    ["queries", "(23 in all)"],
  ])("%s shows %s", (id, number) => {
    const plain = sectionText(id).replaceAll("\u00a0", " ").replaceAll("&lt;", "<");
    expect(plain).toContain(number);
  });
});

it("methods speak of what was run only", async () => {
  const methods = sectionText("methods");
  expect(methods).toContain("Efron 1977");
  expect(methods).toContain("summed within persons");
  expect(methods).toContain("Gr".concat("eenwood 1926"));
  const { results } = inputOf();
  const bare = await renderPage(
    inputOf({
      effects: [],
      tests: [],
      after_return: null,
      distances: null,
      warnings: [],
      follow_up: { ...results.follow_up, competing: [], known: [{ code: "day", n: 61 }] },
      curves: results.curves.map((family) => ({
        ...family,
        entry: "clock" as const,
        held_equal: [],
        strata_used: [],
        curves: family.curves.map((curve) => ({ ...curve, persons: curve.n })),
      })),
    }),
  );
  const section = /<section id="methods"[\s\S]*?<\/section>/.exec(bare)?.[0] ?? "";
  for (const absent of ["Efron", "Aalen", "Makuch", "Welch", "Mantel", "Suissa", "Zhang"])
    expect(section).not.toContain(absent);
  expect(section).toContain("Every return is known to the day.");
  const ids = all(/\sid="([^"]+)"/g, bare);
  for (const target of all(/href="#([^"]+)"/g, bare)) expect(ids).toContain(target);
  expect(ids).not.toContain("care");
});
