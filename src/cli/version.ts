import { readFileSync } from "node:fs";

/** Version of the toolkit, from its package file. */
export const toolkitVersion = (): string =>
  (JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as { version: string })
    .version;
