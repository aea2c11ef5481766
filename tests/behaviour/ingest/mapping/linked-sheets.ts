/** Invented exports of invented sites for the linked tables, each in its own wording, with the columns to be found. */
export const linkedSheets = [
  {
    name: "imaging, English",
    table: "imaging",
    text: `Inj. no.;Exam date;Machine;Level;Condition;TPD [mm];Side examined;Tape on;Examiner;PIP angle (°);Reading no.;Blinded;Remarks
P01-1;12.03.2024;Ultrasound;A2;resting;2,1;injured;no;r1;20;1;yes;
P01-1;12.03.2024;Ultrasound;A2;under load;4,3;injured;no;r1;40;1;yes;
P01-1;12.03.2024;Ultrasound;A2;under load;1,2;healthy;no;r1;40;1;yes;
P02-1;28.04.2024;Ultrasound;A4;resting;1,1;injured;no;r2;;1;no;swollen
P02-1;28.04.2024;MRI;A4;under load;1,9;injured;yes;r2;;2;no;
`,
    columns: {
      injury_id: "Inj. no.",
      date: "Exam date",
      modality: "Machine",
      pulley: "Level",
      position: "Condition",
      distance_mm: "TPD [mm]",
      side: "Side examined",
      taped: "Tape on",
      pip_angle_deg: "PIP angle (°)",
      rater: "Examiner",
      reading: "Reading no.",
      blinded: "Blinded",
      comment: "Remarks",
    },
  },
  {
    name: "imaging, German",
    table: "imaging",
    text: `Verletzungs-Nr;Untersuchungsdatum;Verfahren;Ringband;Belastung;Abstand (cm);Seite;Mit Tape;Untersucher;Verblindet;Bemerkung
V1;12.03.24;Sono;A2;Ruhe;0,21;verletzt;nein;A;ja;
V1;12.03.24;Sono;A2;unter Belastung;0,43;verletzt;nein;A;ja;
V2;28.04.24;MRT;A4;Ruhe;>0,2;Gegenseite;ja;B;nein;x
`,
    columns: {
      injury_id: "Verletzungs-Nr",
      date: "Untersuchungsdatum",
      modality: "Verfahren",
      pulley: "Ringband",
      position: "Belastung",
      distance_mm: "Abstand (cm)",
      side: "Seite",
      taped: "Mit Tape",
      rater: "Untersucher",
      blinded: "Verblindet",
      comment: "Bemerkung",
    },
  },
  {
    name: "imaging, French",
    table: "imaging",
    text: `Lésion;Date d'examen;Modalité;Poulie;Position;Écart (mm);Côté;Avec strap;Angle IPP;Angle IPD;Mesure n°;Opérateur;En aveugle;Remarques
L1;12/03/2024;Échographie;A2;repos;2,1;lésé;non;20;10;1;o1;oui;
L1;12/03/2024;Échographie;A2;en charge;4,3;lésé;non;40;20;1;o1;oui;
L2;28/04/2024;IRM;A4;repos;1,1;sain;oui;;;2;o2;non;gonflé
`,
    columns: {
      injury_id: "Lésion",
      date: "Date d'examen",
      modality: "Modalité",
      pulley: "Poulie",
      position: "Position",
      distance_mm: "Écart (mm)",
      side: "Côté",
      taped: "Avec strap",
      pip_angle_deg: "Angle IPP",
      dip_angle_deg: "Angle IPD",
      rater: "Opérateur",
      reading: "Mesure n°",
      blinded: "En aveugle",
      comment: "Remarques",
    },
  },
  {
    name: "treatments, English",
    table: "treatments",
    text: `Case,Therapy,Type of splint,From,To,Hours/day,Days per week,Compliance,Why stopped,Provided by
P01-1,ring splint,thermoplastic,2024-03-12,2024-05-01,23,7,always,planned end,hand therapist
P01-1,tape,H-tape,2024-05-02,2024-07-01,4,3,mostly,planned end,hand therapist
P02-1,taping,circular,2024-04-28,,6,7,partly,,physio
P03-1,surgery,,2024-06-01,2024-06-01,,,,,surgeon
`,
    columns: {
      injury_id: "Case",
      treatment: "Therapy",
      kind: "Type of splint",
      start_date: "From",
      end_date: "To",
      hours_per_day: "Hours/day",
      days_per_week: "Days per week",
      adherence: "Compliance",
      reason_ended: "Why stopped",
      provider_role: "Provided by",
    },
  },
  {
    name: "treatments, German",
    table: "treatments",
    text: `Fall-Nr;Behandlung;Art;Beginn;Ende;Std./Tag verordnet;Std./Tag getragen;Tage/Woche;Adhärenz;Grund des Endes
F1;Ringschiene;;12.03.2024;01.05.2024;23;20;7;immer;geplant
F1;Tape;;02.05.2024;01.07.2024;4;4;3;meist;geplant
F2;Operation;;28.04.2024;28.04.2024;;;;;
`,
    columns: {
      injury_id: "Fall-Nr",
      treatment: "Behandlung",
      kind: "Art",
      start_date: "Beginn",
      end_date: "Ende",
      hours_per_day: "Std./Tag verordnet",
      hours_per_day_worn: "Std./Tag getragen",
      days_per_week: "Tage/Woche",
      adherence: "Adhärenz",
      reason_ended: "Grund des Endes",
    },
  },
  {
    name: "treatments, Italian",
    table: "treatments",
    text: `Lesione;Trattamento;Inizio;Fine;Ore al giorno;Giorni alla settimana;Aderenza;Motivo della fine
L1;anello;12/03/2024;01/05/2024;23;7;sempre;previsto
L1;nastro;02/05/2024;28/07/2024;4;3;spesso;guarito
L2;chirurgia;28/04/2024;28/04/2024;;;;
`,
    columns: {
      injury_id: "Lesione",
      treatment: "Trattamento",
      start_date: "Inizio",
      end_date: "Fine",
      hours_per_day: "Ore al giorno",
      days_per_week: "Giorni alla settimana",
      adherence: "Aderenza",
      reason_ended: "Motivo della fine",
    },
  },
  {
    name: "visits, English",
    table: "visits",
    text: `Injury,Visit date,Seen how,Easy climbing?,Full climbing?,Old level?,Pain at rest (0-10),Pain with load (VAS),QuickDASH,PIP flexion,PIP extension deficit,DIP flexion,Grip strength (kg),Grip other hand (kg),Current level,Complications,Comments
P01-1,2024-04-15,clinic,no,no,no,2,4,30,95,5,60,38,42,5c,none,
P01-1,2024-06-15,phone,yes,no,no,0,2,12,100,0,65,41,42,6b,none,happy
P02-1,2024-05-15,clinic,yes,yes,no,0,1,5,105,0,70,50,50,6c,stiffness,
P02-1,2024-08-15,questionnaire,yes,yes,yes,0,0,0,105,0,70,51,50,7a,none,
`,
    columns: {
      injury_id: "Injury",
      date: "Visit date",
      kind: "Seen how",
      easy_climbing: "Easy climbing?",
      full_climbing: "Full climbing?",
      previous_level: "Old level?",
      pain_rest: "Pain at rest (0-10)",
      pain_load: "Pain with load (VAS)",
      quickdash: "QuickDASH",
      pip_flexion_deg: "PIP flexion",
      pip_extension_deficit_deg: "PIP extension deficit",
      dip_flexion_deg: "DIP flexion",
      grip_kg: "Grip strength (kg)",
      grip_other_kg: "Grip other hand (kg)",
      level_now: "Current level",
      complication: "Complications",
      note: "Comments",
    },
  },
  {
    name: "visits, German",
    table: "visits",
    text: `Verletzung;Termin;Art des Kontakts;leicht geklettert;uneingeschränkt geklettert;altes Niveau erreicht;Ruheschmerz;Belastungsschmerz;DASH;Griffkraft verletzt;Griffkraft gesund;Zufriedenheit;aktuelles Niveau;Komplikation
V1;15.04.2024;Ambulanz;nein;nein;nein;2;4;30;38;42;6;5c;keine
V1;15.06.2024;Telefon;ja;nein;nein;0;2;12;41;42;8;6b;keine
V2;15.05.2024;Ambulanz;ja;ja;nein;0;1;5;50;50;9;6c;Steife
`,
    columns: {
      injury_id: "Verletzung",
      date: "Termin",
      kind: "Art des Kontakts",
      easy_climbing: "leicht geklettert",
      full_climbing: "uneingeschränkt geklettert",
      previous_level: "altes Niveau erreicht",
      pain_rest: "Ruheschmerz",
      pain_load: "Belastungsschmerz",
      dash: "DASH",
      satisfaction: "Zufriedenheit",
      grip_kg: "Griffkraft verletzt",
      grip_other_kg: "Griffkraft gesund",
      level_now: "aktuelles Niveau",
      complication: "Komplikation",
    },
  },
  {
    name: "visits, Spanish",
    table: "visits",
    text: `Lesión;Fecha de visita;Tipo de visita;Escalada fácil;Escalada completa;Nivel anterior;Dolor en reposo;Dolor en carga;Fuerza de agarre (kg);Fuerza de agarre mano sana (kg);Satisfacción;Nivel actual;Complicaciones;Comentario
L1;15/04/2024;consulta;no;no;no;2;4;38;42;6;5c;ninguna;
L1;15/06/2024;teléfono;sí;no;no;0;2;41;42;8;6b;ninguna;bien
L2;15/05/2024;consulta;sí;sí;no;0;1;50;50;9;6c;rigidez;
`,
    columns: {
      injury_id: "Lesión",
      date: "Fecha de visita",
      kind: "Tipo de visita",
      easy_climbing: "Escalada fácil",
      full_climbing: "Escalada completa",
      previous_level: "Nivel anterior",
      pain_rest: "Dolor en reposo",
      pain_load: "Dolor en carga",
      grip_kg: "Fuerza de agarre (kg)",
      grip_other_kg: "Fuerza de agarre mano sana (kg)",
      satisfaction: "Satisfacción",
      level_now: "Nivel actual",
      complication: "Complicaciones",
      note: "Comentario",
    },
  },
  {
    name: "injuries, English",
    table: "injuries",
    text: `Injury ID,Patient,Clinic,Injury date,First seen,Gender,DOB,Hand,Handedness,Finger,Pulley(s),Tear,Grade,Graded by,Bowstringing,How did it start,Hold type,What happened,Where,Previous injury same finger,Years climbing,Scale,Level before,Level after,Weight (kg),Height (cm),Last contact,Status,Easy climbing on,Full climbing on,Previous level on,Re-rupture,Quit on,Notes
i1,p1,site-a,2024-02-05,2024-02-07,f,1990-03-04,left,right,ring,A2,complete,3,ultrasound,none,pop,full crimp,foot slip,indoor bouldering,no,8,French,7a,7a,61,168,2024-12-06,completed,2024-03-20,2024-05-18,2024-07-01,,,
i2,p2,site-a,2024-05-16,2024-05-20,m,1981-11-30,right,right,middle,A2|A3,complete|partial,4a,MRI,visible,gradual,mono,dyno,lead,yes,20,French,7c,7b,72,181,2025-04-25,lost,2024-07-20,2024-10-18,,,,
i3,p3,site-b,2024-03-19,2024-03-22,f,2001-01-15,left,left,ring,A4,partial,2,ultrasound,none,pop,open hand,hold broke,outdoor bouldering,no,3,French,6b,6c,55,160,2025-02-28,completed,2024-04-15,2024-05-28,2024-06-20,,,
`,
    columns: {
      injury_id: "Injury ID",
      person_id: "Patient",
      site_id: "Clinic",
      injury_date: "Injury date",
      first_visit_date: "First seen",
      sex: "Gender",
      age_at_injury: "DOB",
      hand: "Hand",
      dominant_hand: "Handedness",
      finger: "Finger",
      pulleys: "Pulley(s)",
      pulley_extents: "Tear",
      grade: "Grade",
      grade_source: "Graded by",
      bowstringing: "Bowstringing",
      onset: "How did it start",
      mechanism: "What happened",
      setting: "Where",
      prior_injury_same_finger: "Previous injury same finger",
      years_climbing: "Years climbing",
      level_scale: "Scale",
      level_before: "Level before",
      level_after: "Level after",
      body_mass_kg: "Weight (kg)",
      height_cm: "Height (cm)",
      last_contact_date: "Last contact",
      end_status: "Status",
      easy_climbing_date: "Easy climbing on",
      full_climbing_date: "Full climbing on",
      previous_level_date: "Previous level on",
      new_rupture_date: "Re-rupture",
      gave_up_date: "Quit on",
      notes: "Notes",
      grip: "Hold type",
    },
  },
  {
    name: "injuries, German",
    table: "injuries",
    text: `Verletzungsnummer;Pat.-Nr.;Standort;Unfalldatum;Erstvorstellung;m/w;Jahrgang;Seite;Händigkeit;Finger;Ringband;Ausmaß;Grad;Bogensehne;Entstehung;Griff;Kletterjahre;Niveau vorher;Niveau nachher;Gewicht;Größe;Letzter Kontakt;Verbleib;Leichtes Klettern ab;Volles Klettern ab;Altes Niveau ab;Neuruptur am;Aufgegeben am;Bemerkungen
V1;P1;site-a;05.02.2024;07.02.2024;w;1990;li;re;Ringfinger;A2;komplett;III;nein;Knall;voll aufgestellt;8;7a;7a;61;168;06.12.2024;abgeschlossen;20.03.2024;18.05.2024;01.07.2024;;;
V2;P2;site-a;16.05.2024;20.05.2024;m;1981;re;re;Mittelfinger;A2+A3;komplett, partiell;IVa;sichtbar;schleichend;Einfingerloch;20;7c;7b;72;181;25.04.2025;nicht erreichbar;20.07.2024;18.10.2024;;;;
`,
    columns: {
      injury_id: "Verletzungsnummer",
      person_id: "Pat.-Nr.",
      site_id: "Standort",
      injury_date: "Unfalldatum",
      first_visit_date: "Erstvorstellung",
      sex: "m/w",
      age_at_injury: "Jahrgang",
      hand: "Seite",
      dominant_hand: "Händigkeit",
      finger: "Finger",
      pulleys: "Ringband",
      pulley_extents: "Ausmaß",
      grade: "Grad",
      bowstringing: "Bogensehne",
      onset: "Entstehung",
      years_climbing: "Kletterjahre",
      level_before: "Niveau vorher",
      level_after: "Niveau nachher",
      body_mass_kg: "Gewicht",
      height_cm: "Größe",
      last_contact_date: "Letzter Kontakt",
      end_status: "Verbleib",
      easy_climbing_date: "Leichtes Klettern ab",
      full_climbing_date: "Volles Klettern ab",
      previous_level_date: "Altes Niveau ab",
      new_rupture_date: "Neuruptur am",
      gave_up_date: "Aufgegeben am",
      notes: "Bemerkungen",
      grip: "Griff",
    },
  },
] as const;
