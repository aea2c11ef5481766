import { jsonText } from "../schema/json-text.js";
import { bytesAndHash, type Resource } from "./resources.js";

/** What a deposit says about itself. */
export interface AboutDeposit {
  /** Small letters, digits, hyphens. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly keywords: readonly string[];
}

/**
 * The descriptor of the deposit, `datapackage.json`: each file with its columns, size and digest. Without a licence: that
 * is for whoever publishes it.
 *
 * @source Data Package, Tabular Data Package and Table Schema, version 1 (Frictionless Data)
 */
export function dataPackageOf(about: AboutDeposit, resources: readonly Resource[]): string {
  const descriptor = {
    profile: "tabular-data-package",
    ...about,
    resources: resources.map(({ name, path, title, text, schema }) => ({
      profile: "tabular-data-resource",
      name,
      path,
      title,
      format: "csv",
      mediatype: "text/csv",
      encoding: "utf-8",
      ...bytesAndHash(text),
      dialect: { delimiter: ",", lineTerminator: "\n", quoteChar: '"', doubleQuote: true, header: true },
      schema,
    })),
  };
  return jsonText(descriptor);
}
