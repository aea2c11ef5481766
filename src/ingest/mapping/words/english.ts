import type { Vocabulary } from "./vocabulary.js";

export const english: Vocabulary = {
  language: "English",
  headers: {
    person: "person, patient, patients, pat, pt, subject, subj, participant, climber, pseudonym, case",
    site: "site, clinic, centre, center, hospital, practice, institution",
    sex: "sex, gender, m f, f m",
    age: "age, aged, yrs old, years old",
    birth: "birth, born, dob, yob, birthday, birthdate",
    injury: "injury, injured, inj, accident, trauma, incident, doi, onset of injury, rupture",
    visit: "visit, consultation, consult, seen, appointment, presentation, presented, attended, clinic visit",
    date: "date, day, dt, when, on",
    hand: "hand, side, laterality",
    dominant: "dominant, dominance, handedness",
    finger: "finger, digit, fingers, dig, fing",
    pulley: "pulley, pulleys, annular, pull, pulley s",
    extent: "extent, extents, severity of tear, tear, partial complete, completeness",
    grade: "grade, grading, gr, severity, injury grade, grade of injury",
    bowstringing: "bowstringing, bowstring, bowstr, bow stringing",
    treatment:
      "treatment, treatments, therapy, tx, rx, treat, treated, management, intervention, splint, care",
    start: "start, started, starts, begin, began, begun, from, commenced, beginning, initiated",
    end: "end, ended, ends, stop, stopped, until, till, finished, to",
    first: "first, 1st, initial, baseline, 1, pre, init, bl, t0, primary",
    second: "second, 2nd, 2, another, subsequent, secondary, further",
    last: "last, final, latest, follow up, followup, fu, f u, recheck, control, end of study, post",
    distance:
      "distance, dist, tpd, tbd, tp distance, gap, tendon phalanx distance, tendon bone distance, tendon phalanx, tendon bone",
    rest: "rest, resting, at rest, neutral, relaxed, unloaded, extension",
    loaded: "loaded, load, loading, stressed, under load, resisted, forced flexion, active, flexion",
    scan: "scan, scanned, ultrasound, us, imaging, sono, sonography, image, measured, measurement, usg",
    climbing: "climbing, climb, climbed, wall, rock",
    return:
      "return, returned, back, rtc, rts, resumed, resumption, return to climbing, back to climbing, back on the wall, back climbing",
    easy: "easy, easy climbing, light, protected, gentle, light climbing, careful, jugs, big holds, large holds, easy routes, easy terrain, low intensity, modified climbing, restricted climbing",
    full: "full, fully, unrestricted, full climbing, all grips, full return, full load, without limits, without limit, without limitation, without limitations, without restriction, without restrictions, no restriction, no restrictions, no limits, no limit, no limitation, no limitations, unlimited, unlimited climbing, all grip types, all holds, normal climbing, climbing freely, freely",
    previous:
      "previous level, prior level, pre injury level, preinjury level, same level, old level, prev level, level of before, former level, level regained, previous grade, old grade, same grade, pre injury grade, usual level, usual grade, normal level, old form, previous form, full performance",
    level:
      "level, climbing level, climbing grade, best grade, redpoint, performance, ability, max grade, hardest grade, climbing ability",
    before: "before, prior, pre, pre injury, preinjury, before injury, prev",
    after: "after, post, now, current, at end, after injury, post injury, following",
    gave_up:
      "gave up, given up, gave up climbing, quit, stopped climbing, stopped for good, ended climbing career, no longer climbs, stopped for ever",
    new_rupture:
      "new rupture, rerupture, re rupture, re injury, reinjury, recurrence, second rupture, new injury, ruptured again, torn again, injured again, repeat rupture",
    contact:
      "contact, last seen, last contact, last known, last follow up, last heard, lfu, last fu, followed until, follow up until, last visit",
    status: "status, outcome, end status, state, disposition, fate",
    scale: "scale, system, grading scale, grade system, scale of levels",
    notes: "notes, note, comment, comments, remark, remarks, free text, other info",
    number: "number, no, nr, id, code, num, identifier, key",
    kind: "kind, type, which, what, sort",
    duration: "duration, weeks, wks, months, days, how long, time to, wk",
    pain: "pain, vas, nrs",
    onset: "onset, pop, how it began",
    grip: "grip, grip type, hold type",
    mass: "weight, mass, body weight, bodyweight, body mass",
    height: "height, body height",
    modality: "modality, method",
    position: "position, posture",
    rater: "rater, examiner, sonographer, observer",
    years: "years, experience, years of, yrs",
  },
  fillers:
    "of, since, st, nd, rd, th, the, a, an, in, at, for, was, is, and, or, s, which, affected, reached, possible, value",
  cells: {
    finger: {
      thumb: "thumb",
      index: "index, forefinger, pointer, if, index finger, ind",
      middle: "middle, long, mf, middle finger, long finger, mid",
      ring: "ring, rf, ring finger",
      little: "little, small, pinky, pinkie, lf, little finger, small finger, sf",
    },
    hand: { left: "left, l, lt, lh", right: "right, r, rt, rh" },
    sex: {
      female: "female, f, woman, fem",
      male: "male, m, man",
      other: "other, diverse, non binary, nonbinary",
      not_stated: "not stated, prefer not to say",
    },
    extent: {
      strain: "strain, strained, sprain, overstretched",
      partial: "partial, partially, part, incomplete, partial tear, partial rupture, pt",
      complete: "complete, compl, completely, full, total, complete tear, complete rupture, full rupture, ct",
    },
    treatment: {
      tape: "tape, taping, taped, h tape, h taping, tape only, buddy tape, buddy taping",
      ring: "ring, ring splint, pulley ring, thermoplastic ring, ring orthosis, pulley ring splint, custom ring, rings",
      surgery:
        "surgery, surgical, operation, operated, op, reconstruction, repair, pulley repair, surgical repair, surgical reconstruction, pulley reconstruction",
      rest: "rest, rested, no climbing, climbing break, pause, immobilisation, immobilization, cast",
      rehabilitation:
        "rehabilitation, rehab, physio, physiotherapy, physical therapy, hand therapy, pt, exercise, exercises, loading programme, loading program",
      other: "other",
    },
    bowstringing: {
      none: "none, no, absent, no bowstringing, not seen",
      imaging_only:
        "imaging only, imaging, on imaging, us only, ultrasound only, only on ultrasound, on ultrasound",
      visible: "visible, clinical, clinically visible, obvious, clinically",
    },
    end_status: {
      in_follow_up: "in follow up, ongoing, follow up ongoing, under follow up, active, still followed",
      completed: "completed, complete, finished, discharged, closed, done, healed",
      lost: "lost, lost to follow up, lost to fu, ltfu, no contact",
      gave_up: "gave up, gave up climbing, quit, quit climbing, stopped climbing",
      died: "died, dead, deceased",
      other: "other, moved, moved away",
    },
    yes_no: {
      yes: "yes, y, true, x, 1, present, positive",
      no: "no, n, false, 0, absent, negative",
    },
    side: {
      injured: "injured, affected",
      other: "other, contralateral, healthy, uninjured, opposite",
    },
    modality: {
      ultrasound: "ultrasound, us, sono, sonography, usg",
      mri: "mri, mr",
      ct: "ct",
    },
    position: {
      rest: "rest, at rest, resting, neutral",
      loaded: "loaded, load, under load, resisted, stressed",
      flexed_unloaded: "flexed unloaded, flexed without load",
    },
    grade_prefix: { grade: "grade, gr, degree" },
    not_yet: {
      not_yet: "not yet, not reached, not back, not yet back, never, not so far, still not",
    },
    filler: {
      filler: "finger, hand, digit, the, pulley, rupture, tear, only, and, side",
    },
  },
};
