import { syntheticLine } from "../../words/cautions.js";
import { type Content, html, type Safe, trusted } from "../escape.js";
import { foldedMark } from "./blocks.js";
import { pageHead } from "./head.js";
import { type Digest, policyOf } from "./policy.js";
import { printStyle } from "./style-print.js";
import { screenStyle } from "./style-screen.js";

/** A part of a page under its title. */
export interface PagePart {
  readonly id: string;
  readonly title: string;
  readonly body: Safe;
}

/** What a page that stands alone is made from. */
export interface PageParts {
  readonly title: string;
  /** Above the title: what kind of page this is. */
  readonly kind: string;
  /** Beneath the title: what it is about. */
  readonly lead: Content;
  readonly synthetic: boolean;
  /** The part to which a reader may skip, and how the link is called. */
  readonly skip: { readonly to: string; readonly words: string };
  readonly parts: readonly PagePart[];
  /** Style rules that bring the fonts as `data:`; may be empty. */
  readonly fontCss: string;
  /** It names the one style sheet that the page may use. */
  readonly sha256: Digest;
}

/**
 * A page that stands alone: style and drawings inside it, no script, no connection, and a policy that would stop either.
 *
 * @throws Error when `sha256` does not give 64 hexadecimal digits
 */
export async function pageOf(page: PageParts): Promise<string> {
  const style = page.fontCss + screenStyle + printStyle;
  const policy = await policyOf(style, page.sha256);
  return document(page, { policy, style: trusted(style) }).markup;
}

function document(
  { title, kind, lead, synthetic, skip, parts }: PageParts,
  { policy, style }: { readonly policy: string; readonly style: Safe },
): Safe {
  const marked = synthetic && !title.startsWith("SYNTHETIC") ? `SYNTHETIC: ${title}` : title;
  return html`<!doctype html>
<html lang="en">
${pageHead({ title: marked, policy, style })}
<body${synthetic ? html` class="synthetic"` : null}>
<a class="skip" href="#${skip.to}">${skip.words}</a>
${synthetic ? html`<p class="synthetic-banner">${syntheticLine}</p>\n<p class="print-mark" aria-hidden="true">${syntheticLine}</p>\n` : null}<div class="page">
<header class="masthead">
<p class="kind">${kind}</p>
<h1>${title}</h1>
<p class="asked">${lead}</p>
${parts.some(({ body }) => body.markup.includes(foldedMark)) ? unfold : null}</header>
<div class="columns">
${contents(parts)}<main>
${parts.map(partBlock)}</main>
</div>
</div>
</body>
</html>
`;
}

/** Opens at once whatever is folded away; without a script, by a rule of the style. */
const unfold = html`<p class="unfold"><label><input type="checkbox" id="unfold"> Show everything that is folded away, on paper too</label></p>\n`;

const contents = (
  parts: readonly PagePart[],
): Safe => html`<nav class="contents" aria-labelledby="contents-title">
<details>
<summary><h2 id="contents-title">Contents</h2></summary>
<ol>
${parts.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>\n`)}</ol>
</details>
</nav>
`;

const partBlock = ({
  id,
  title,
  body,
}: PagePart): Safe => html`<section id="${id}" aria-labelledby="${id}-heading">
<h2 id="${id}-heading">${title}</h2>
${body}</section>
`;
