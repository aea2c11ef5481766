import type { Vocabulary } from "./vocabulary.js";

export const german: Vocabulary = {
  language: "German",
  headers: {
    person: "person, patient, patientin, patienten, pat, proband, kletterer, pseudonym, fall",
    site: "standort, klinik, zentrum, praxis, ort, einrichtung, spital",
    sex: "geschlecht, sex, m w, w m, geschl",
    age: "alter, lebensalter",
    birth: "geburt, geboren, geb, geburtsdatum, geburtsjahr, jahrgang",
    injury: "verletzung, unfall, trauma, verl, ereignis, verletzt, ruptur",
    visit: "vorstellung, besuch, konsultation, untersuchung, erstkontakt, sprechstunde, termin, kons",
    date: "datum, tag, am, dat, zeitpunkt, wann",
    hand: "hand, seite, seitigkeit",
    dominant: "dominant, dominanz, handigkeit, haendigkeit, fuhrungshand, dominante",
    finger: "finger, fingerstrahl, strahl",
    pulley: "ringband, ringbander, ringbaender, pulley, pulleys, rb",
    extent: "ausmass, ausdehnung, teilriss, komplettheit, rissart",
    grade: "grad, schweregrad, gradierung, einteilung, verletzungsgrad",
    bowstringing: "bowstringing, bogensehne, bogensehnenphanomen, bowstring, sehnenbogen",
    treatment: "behandlung, therapie, beh, massnahme, versorgung, ther, schiene",
    start: "beginn, start, anfang, ab, seit, begonnen, von",
    end: "ende, bis, schluss, beendet, abschluss",
    first: "erst, erste, erster, erstes, initial, 1, anfangs, primar, erstmalig",
    second: "zweit, zweite, zweiter, 2, weitere, folge",
    last: "letzt, letzte, letzter, letztes, verlauf, kontrolle, final, nachkontrolle, vk, nachuntersuchung, zuletzt, kontroll",
    distance:
      "abstand, distanz, sehnenabstand, sehnen knochen abstand, sehne knochen, tpd, ska, sehnen knochen",
    rest: "ruhe, in ruhe, unbelastet, neutral, entspannt, ohne belastung",
    loaded:
      "belastung, unter belastung, belastet, unter last, last, angespannt, gegen widerstand, bel, anspannung, mit belastung",
    scan: "sono, sonographie, sonografie, ultraschall, us, bildgebung, messung, schall, gemessen",
    climbing: "klettern, kletter, geklettert",
    return: "ruckkehr, wieder, wiederaufnahme, zuruck",
    easy: "leicht, leichtes, leichtes klettern, geschutzt, schonend, kletterbeginn, vorsichtig, vorsichtiges klettern, leichte routen, henkel, grosse griffe, geschutztes klettern, schonendes klettern, eingeschranktes klettern",
    full: "voll, volles, uneingeschrankt, uneingeschranktes klettern, volles klettern, vollbelastung, ohne einschrankung, ohne limit, ohne limits, unbegrenzt, unlimitiert, ohne einschrankungen, keine einschrankung, keine einschrankungen, ohne beschrankung, ohne beschrankungen, einschrankungsfrei, alle griffe, alle griffarten, alle grifftypen, normales klettern, normal klettern, uneingeschrankter sport",
    previous:
      "vorniveau, altes niveau, voriges niveau, fruheres niveau, ausgangsniveau, gleiches niveau, ursprungsniveau, niveau wieder erreicht, niveau wie vorher, alte form, vorheriges niveau, ursprungliches niveau, niveau vor verletzung, niveau vor unfall, alte leistung, ubliches niveau, gewohntes niveau",
    level: "niveau, kletterniveau, kletterlevel, level, leistung, konnen, kletterkonnen, leistungsniveau",
    before: "vor, vorher, zuvor, vor verletzung, vor unfall, davor",
    after: "nach, nachher, aktuell, danach, jetzt, nach verletzung, am ende",
    gave_up:
      "aufgegeben, aufgehort, klettern aufgegeben, aufgabe, kletterstopp, klettert nicht mehr, endgultig aufgehort",
    new_rupture:
      "neuruptur, reruptur, re ruptur, erneute ruptur, neue ruptur, rezidiv, erneute verletzung, wieder gerissen, erneut gerissen, erneut verletzt",
    contact:
      "kontakt, letzter kontakt, zuletzt gesehen, letzte kontrolle, letzte vorstellung, letzte info, beobachtet bis, letzter termin",
    status: "status, ausgang, zustand, endstatus, verbleib",
    scale: "skala, system, bewertungsskala, gradskala",
    notes: "notiz, notizen, bemerkung, bemerkungen, kommentar, anmerkung, anmerkungen, bem",
    number: "nummer, nr, id, code, kennung, kurzel, lfd nr, lfd",
    kind: "art, typ, welche",
    duration: "dauer, wochen, monate, wo, tage, zeit bis",
    pain: "schmerz, schmerzen",
    onset: "entstehung, knall",
    grip: "griff, griffart, griffposition",
    mass: "gewicht, korpergewicht",
    height: "grosse, korpergrosse",
    modality: "verfahren, methode, modalitat",
    position: "position, stellung",
    rater: "untersucher, untersucherin",
    years: "jahre, kletterjahre, erfahrung, kletterjahren",
  },
  fillers:
    "der, die, das, des, im, in, bei, zur, zum, und, oder, beim, betroffen, betroffene, betroffener, betroffenes, welcher, erreicht, moglich, wert",
  cells: {
    finger: {
      thumb: "daumen",
      index: "zeigefinger, zeige, zf",
      middle: "mittelfinger, mittel, mf",
      ring: "ringfinger, ring, rf",
      little: "kleinfinger, klein, kleiner, kleiner finger, kf, kleine",
    },
    hand: {
      left: "links, linke, li, l, lks, linke hand",
      right: "rechts, rechte, re, r, rts, rechte hand",
    },
    sex: {
      female: "weiblich, w, frau, weibl",
      male: "mannlich, m, mann, mannl",
      other: "divers",
      not_stated: "keine angabe",
    },
    extent: {
      strain: "zerrung, dehnung, uberdehnung, gezerrt, uberdehnt",
      partial:
        "partiell, teilweise, teilruptur, teilriss, partialruptur, inkomplett, unvollstandig, part, partielle",
      complete: "komplett, vollstandig, komplettruptur, total, kompl, vollruptur, komplette, gerissen",
    },
    treatment: {
      tape: "tape, taping, tapeverband, h tape, getapt, taped, tapen",
      ring: "ring, ringschiene, ringorthese, pulley ring, schiene, thermoplastischer ring, ring orthese, schutzring, thermoplastische ringschiene",
      surgery:
        "operation, op, operiert, operativ, naht, rekonstruktion, ringbandplastik, ringbandrekonstruktion, chirurgisch",
      rest: "ruhe, pause, schonung, kletterpause, ruhigstellung, immobilisation, gips",
      rehabilitation:
        "rehabilitation, reha, physio, physiotherapie, ergotherapie, krankengymnastik, kg, handtherapie, ergo",
      other: "andere, anderes, sonstige, sonstiges",
    },
    bowstringing: {
      none: "kein, keine, nein, keines",
      imaging_only:
        "nur sono, nur ultraschall, nur bildgebung, sonographisch, nur im ultraschall, nur sonographisch",
      visible: "sichtbar, klinisch sichtbar, deutlich, klinisch",
    },
    end_status: {
      in_follow_up: "in nachkontrolle, laufend, in beobachtung, noch in behandlung, in behandlung",
      completed: "abgeschlossen, beendet, fertig, ausgeheilt",
      lost: "verloren, kein kontakt, nicht erreichbar, nicht mehr erschienen",
      gave_up: "aufgegeben, klettern aufgegeben, aufgehort",
      died: "verstorben, gestorben, tot",
      other: "andere, sonstige, verzogen, umgezogen",
    },
    yes_no: { yes: "ja, j, vorhanden, positiv", no: "nein, n, nicht, negativ" },
    side: {
      injured: "verletzt, verletzte seite, betroffen",
      other: "gegenseite, gesund, gesunde seite, andere seite",
    },
    modality: {
      ultrasound: "sono, ultraschall, sonographie, sonografie",
      mri: "mrt, mri",
      ct: "ct",
    },
    position: {
      rest: "ruhe, in ruhe, neutral, unbelastet",
      loaded: "belastung, unter belastung, belastet, unter last",
      flexed_unloaded: "gebeugt unbelastet",
    },
    grade_prefix: { grade: "grad, gr, stadium" },
    not_yet: { not_yet: "noch nicht, nicht erreicht, nie, bisher nicht, noch nicht erreicht" },
    filler: { filler: "finger, hand, der, die, ringband, ruptur, riss, nur, und, seite" },
  },
};
