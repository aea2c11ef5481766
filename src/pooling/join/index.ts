export { joinSites, siteIdsOf } from "./join-sites.js";
export { JoinError } from "./recorded-twice.js";
export type { SiteRead } from "./site-read.js";
export { type States, StatesError } from "./states.js";
