import type { PersonIds } from "../schema/person-key.js";

/** What a person id that occurs at several sites is taken for, and by whose word. */
export function personIdWords(stated: PersonIds | undefined): string {
  switch (stated) {
    case "shared":
      return "a person id names one person at all sites, as the study file says (person_ids: shared)";
    case "per_site":
      return "the same person id at two sites is two people, as the study file says (person_ids: per_site)";
    default:
      return "the study file does not say whether sites share their person ids, so that the same id at two sites is taken as two people (person_ids: per_site), because sites number their people by themselves";
  }
}
