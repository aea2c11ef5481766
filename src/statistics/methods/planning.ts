import { citations as c } from "../citations.js";
import type { Method } from "./method.js";

export const planning: readonly Method[] = [
  {
    name: "size and power for two shares by a landmark",
    functions: ["sizeOfShares", "powerOfShares"],
    files: ["planning/shares.ts"],
    checkedAgainst: "sample_size",
    sources: [c.fleissTytun1980],
  },
  {
    name: "returns for a ratio of rates, their power, and the part of people whose return is seen",
    functions: ["eventsForRatio", "powerOfEvents", "shareSeen"],
    files: ["planning/hazards.ts"],
    checkedAgainst: "sample_size",
    sources: [c.schoenfeld1983, c.freedman1982, c.lachinFoulkes1986],
  },
  {
    name: "size for two means, a mean change, a difference of restricted means",
    functions: ["sizeOfMeans", "sizeOfPairs", "sizeOfDifference"],
    files: ["planning/means.ts"],
    checkedAgainst: "sample_size",
    sources: [c.cohen1988, c.bormFransen2007, c.roystonParmar2013],
  },
  {
    name: "size for the width of an interval: share, intraclass correlation",
    functions: ["sizeForShareWidth", "widthOfShare", "sizeForIntraclass"],
    files: ["planning/precision.ts"],
    checkedAgainst: "sample_size",
    sources: [c.wilson1927, c.bonett2002],
  },
  {
    name: "recruits: several injuries a person, sites, losses",
    functions: ["recruits"],
    files: ["planning/recruits.ts"],
    checkedAgainst: "sample_size",
    sources: [c.donnerBirkett1981, c.eldridgeAshby2006],
  },
];
