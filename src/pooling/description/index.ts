export { describeSite, type SiteCohort } from "./describe-site.js";
export { siteCohort } from "./site-cohort.js";
export {
  type DescribedField,
  type ExactDescription,
  type SiteDescription,
  siteDescription,
} from "./site-description.js";
export { withoutSmallCounts } from "./small-counts.js";
export { type TablesOfSite, tablesBySite } from "./tables-by-site.js";
