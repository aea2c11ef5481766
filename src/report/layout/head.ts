import { html, type Safe, trusted } from "../escape.js";

/** The head of a page that stands alone: its policy, its title and its one style. */
export const pageHead = ({
  title,
  policy,
  style,
  mark = null,
}: {
  readonly title: string;
  readonly policy: string;
  readonly style: Safe;
  /** What kind of page it is, for whoever reads the file. */
  readonly mark?: Safe | null;
}): Safe => html`<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
${mark === null ? null : html`${mark}\n`}<title>${title}</title>
<style>${style}</style>
</head>`;
