import type { InjuryRow } from "./injuries.js";

/** How far a person id names one person: within its site, or at all sites. */
export const personIdRules = ["per_site", "shared"] as const;
export type PersonIds = (typeof personIdRules)[number];

/**
 * Names a person across sites. Where nothing else is said a person id is unique only within its site, since sites number
 * their people by themselves; shared ids name the same person at every site.
 *
 * @example
 * personKey({ site_id: "site-a", person_id: "P09" }, "per_site") // => "site-a/P09"
 */
export function personKey(
  { site_id, person_id }: Pick<InjuryRow, "site_id" | "person_id">,
  personIds: PersonIds,
): string {
  return `${personIds === "shared" ? "" : withoutSlash(site_id ?? "")}/${withoutSlash(person_id)}`;
}

/** The key that a person would have if ids were shared by all sites. */
export const sharedKey = (key: string): string => key.slice(key.indexOf("/"));

/** Two different pairs of ids must never give one key, whatever stands in them. */
const withoutSlash = (id: string) => id.replaceAll("%", "%25").replaceAll("/", "%2F");
