import { readFileSync } from "node:fs";

/**
 * What computes here: outputs are the same under every supported engine, and where they are not, this is the first question.
 * Such as "node 22.23.3 on linux x64".
 */
export const engineName = (): string =>
  `node ${process.versions.node} on ${process.platform} ${process.arch}`;

/** Version of the toolkit, from its package file. */
export const toolkitVersion = (): string =>
  (JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { version: string })
    .version;
