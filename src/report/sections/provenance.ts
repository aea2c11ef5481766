import { yamlText } from "../../schema/settings/yaml-text.js";
import { syntheticLine } from "../../words/cautions.js";
import { sealedWords } from "../../words/sealed.js";
import { type ReportContext, type Section, section } from "../context.js";
import { html, type Safe } from "../escape.js";
import { behind, heading } from "../layout/blocks.js";
import { table } from "../layout/table.js";

/** What made this report, so that anybody with the data can make it again. */
export function provenanceSection({ results, version }: ReportContext): Section {
  const { plan, format } = results;
  return section(
    "provenance",
    html`${table({
      caption: "What made this report",
      columns: [{ head: "" }, { head: "Value" }],
      groups: [
        {
          heading: null,
          rows: [
            ["Toolkit", `pulley-outcomes ${version}`],
            ["Format of the results", format],
            ["Study", plan.study],
            ["Seed of random numbers", plan.seed],
            ["Data", plan.synthetic ? syntheticLine : "as named in the study file"],
          ],
        },
      ],
    })}${sealedBlock(results)}<p>To compute it again: the same version of the toolkit, the study file below and the same data files give the same folder, byte for byte. Every number shown here is given at full precision in <code>results.json</code>, and the tables as CSV and the figures with their specifications are in the same folder as this page. No time, computer name or file path went into it.</p>
${behind("Study file, with every default filled in", html`<pre tabindex="0"><code>${yamlText(plan, { lineWidth: 0 })}</code></pre>\n`)}`,
  );
}

/** What was sealed beforehand, and what was changed afterwards; nothing where no plan was sealed. */
function sealedBlock({ sealed }: ReportContext["results"]): Safe | null {
  if (sealed === null) return null;
  return html`${heading("The plan that was sealed")}<p>${sealedWords(sealed)} Fingerprint of the sealed plan: <code>${sealed.sha256}</code>.</p>
${
  sealed.changed.length === 0
    ? null
    : table({
        caption: "What is not as it was sealed",
        columns: [{ head: "Key of the study file" }, { head: "As sealed" }, { head: "Now" }],
        groups: [
          {
            heading: null,
            rows: sealed.changed.map(({ key, sealed: before, now }) => [
              key,
              before ?? "not there",
              now ?? "not there",
            ]),
          },
        ],
      })
}`;
}
