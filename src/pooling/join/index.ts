export { joinSites, type SiteRead, siteIdsOf } from "./join-sites.js";
export { type States, StatesError } from "./states.js";
