import { z } from "zod";
import { optional, required } from "./field.js";
import * as signs from "./header-signs.js";
import { usualDistance } from "./limits.js";
import * as terms from "./terms.js";

/** One row per site: what its words mean, so that pooling compares like with like. */
export const siteRow = z.strictObject({
  site_id: required.identifier({
    sharing: { rename: "site" },
    description: "Coded site",
    example: "site-a",
    fewNames: true,
    header: signs.site,
    invented: "drawn",
  }),
  name: optional.text({
    sharing: "leave-out",
    description: "Coded name, which does not identify the site",
    example: "Site A",
    header: "own-name",
    invented: "drawn",
  }),
  country: optional.text({
    sharing: "leave-out",
    description: "Country, if it may be disclosed",
    example: "",
    header: "own-name",
    invented: "blank",
  }),
  definition_easy: optional.text({
    sharing: { rename: "definition" },
    description: "What the site calls easy climbing, in its words",
    example: "first session on the wall, any protection",
    header: "own-name",
    invented: "drawn",
  }),
  definition_full: optional.text({
    sharing: { rename: "definition" },
    description: "What the site calls full climbing, in its words",
    example: "all grips, no planned restriction",
    header: "own-name",
    invented: "drawn",
  }),
  definition_previous: optional.text({
    sharing: { rename: "definition" },
    description: "What the site calls the previous level, in its words",
    example: "three ascents at the old level",
    header: "own-name",
    invented: "drawn",
  }),
  visit_schedule: optional.text({
    sharing: "leave-out",
    description: "When people are seen",
    example: "6, 12, 26 weeks",
    header: "own-name",
    invented: "drawn",
  }),
  how_people_come: optional.choice(terms.waysToSite, {
    sharing: "keep",
    description:
      "How people come to the site: by themselves, sent by others, both, or as members of a team it looks after",
    example: "by_referral",
    cells: "own-words",
    header: "own-name",
    invented: "drawn",
  }),
  finger_counting: optional.choice(["with_thumb", "without_thumb"], {
    sharing: "keep",
    description: "Whether the site counts the thumb when it numbers fingers",
    example: "with_thumb",
    cells: "own-words",
    header: "own-name",
    invented: { always: "with_thumb" },
  }),
  imaging_device: optional.text({
    sharing: "leave-out",
    description: "Kind of device, without a brand",
    example: "linear probe 18 MHz",
    header: "own-name",
    invented: { always: "linear probe" },
  }),
  threshold_mm: optional.number({
    sharing: "keep",
    description: "Loaded distance above which the site calls a rupture complete",
    example: "2",
    minimum: 0,
    maximum: 15,
    unit: "mm",
    usualMedian: usualDistance,
    header: "own-name",
    invented: "drawn",
  }),
  who_is_scanned: optional.choice(["all", "selected"], {
    sharing: "keep",
    description: "Whether everybody is imaged or only some people",
    example: "all",
    cells: "own-words",
    header: "own-name",
    invented: { always: "all" },
  }),
});

export type SiteRow = z.infer<typeof siteRow>;
