/** A term of the field as readers meet it, and what it means. */
export interface Meaning {
  /** The term in the forms in which it occurs in a text, the longest first. */
  readonly forms: readonly string[];
  /** In complete sentences, for a person who knows fingers and no statistics. */
  readonly meaning: string;
}

/** Terms of the plain words, the curves and the question. */
export const meanings: readonly Meaning[] = [
  {
    forms: ["95 % confidence intervals", "95 % confidence interval"],
    meaning:
      "A range around an estimate. If the whole study were repeated many times, 95 of 100 such ranges would hold the true value. A wide range means that few injuries stand behind the figure. It takes no account of how the groups came about or of who was lost.",
  },
  {
    forms: ["percentage points", "percentage point"],
    meaning: "The difference of two shares: from 60 % to 70 % it is 10 percentage points.",
  },
  {
    forms: ["Grade for grade", "grade for grade", "adjusted for grade"],
    meaning:
      "The groups are compared within each grade, and the comparisons are averaged with the grades of all groups together. A group with more severe injuries is then at no disadvantage on that account. A grade with too few injuries in a group is left out.",
  },
  {
    forms: ["Without adjustment", "without adjustment", "as the groups are"],
    meaning:
      "The groups as they are, each with its own mix of grades and of everything else. A difference may come from that mix alone.",
  },
  {
    forms: ["standardised difference", "standardised differences"],
    meaning:
      "How far apart two groups were at the start, measured against the spread between people. 0 means alike; beyond 0.1 is often taken as unlike (common practice, no source).",
  },
  {
    forms: ["mean time to return"],
    meaning:
      "The days not yet back, averaged over everybody. Whoever is not back by the last week that is counted enters with all days until then.",
  },
  {
    forms: ["half were back by", "half are back by"],
    meaning:
      "The day on which the share back reached 50 % of all, those who never came back included. It is not the average.",
  },
  {
    forms: ["at risk", "still followed", "followed"],
    meaning:
      "Under observation on that day and not yet back. Whoever was last seen earlier, or joined later, is not among them.",
  },
  {
    forms: ["lost to follow-up"],
    meaning:
      "Last seen before the week in question without having been back, so that it is not known what became of them.",
  },
  {
    forms: ["gave up climbing"],
    meaning:
      "Climbing was given up before the return. Such people count as not back for good; they are not left out.",
  },
  {
    forms: ["ruptured again", "new rupture of the finger", "new ruptures"],
    meaning: "Another pulley rupture of the same finger after the one that is followed here.",
  },
  {
    forms: ["months of follow-up after a return"],
    meaning:
      "The months for which people were followed after their return, added up over all of them. Ten people followed for ten months each give 100.",
  },
  {
    forms: ["first treatment", "first treated"],
    meaning:
      "Whichever of the treatments compared began first. What else was given before or later does not move an injury to another group.",
  },
  {
    forms: ["allocated at random"],
    meaning:
      "Drawn by lot. Only then do groups differ by chance alone; where a treatment is chosen, those who chose differ too.",
  },
  {
    forms: ["tendon-phalanx distance"],
    meaning:
      "The gap between the flexor tendon and the bone on ultrasound, in millimetres. It widens where a pulley no longer holds the tendon down.",
  },
  {
    forms: ["bowstringing"],
    meaning: "The tendon standing off the bone like the string of a bow when the finger is bent under load.",
  },
];
