import type { InjuryRow } from "./injuries.js";

/**
 * Names a person across sites: a person id is unique only within its site.
 *
 * @example
 * personKey({ site_id: "site-a", person_id: "P09" }) // => "site-a/P09"
 */
export function personKey({ site_id, person_id }: Pick<InjuryRow, "site_id" | "person_id">): string {
  return `${withoutSlash(site_id ?? "")}/${withoutSlash(person_id)}`;
}

/** Two different pairs of ids must never give one key, whatever stands in them. */
const withoutSlash = (id: string) => id.replaceAll("%", "%25").replaceAll("/", "%2F");
