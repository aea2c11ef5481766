import fc from "fast-check";
import { timesDecimal } from "../../../../src/ingest/mapping/apply/decimal-text.js";
import { csvText } from "../../../../src/schema/csv-text.js";

/** How one site would have written a sheet. */
export interface Disguise {
  readonly wording: keyof typeof names;
  readonly dates: "iso" | "day-dots" | "day-slashes" | "month-slashes" | "short-dots";
  readonly decimals: "point" | "comma";
  readonly unit: "mm" | "cm";
  readonly delimiter: "," | ";" | "\t";
  readonly handIn: "own column" | "finger column";
  readonly extentsIn: "own column" | "pulley column";
  /** Order of the columns: sorts them by these numbers. */
  readonly order: readonly number[];
  readonly preamble: "none" | "title";
}

export const disguises: fc.Arbitrary<Disguise> = fc.record({
  wording: fc.constantFrom("english", "short", "german", "french", "spanish", "italian"),
  dates: fc.constantFrom("iso", "day-dots", "day-slashes", "month-slashes", "short-dots"),
  decimals: fc.constantFrom("point", "comma"),
  unit: fc.constantFrom("mm", "cm"),
  delimiter: fc.constantFrom(",", ";", "\t"),
  handIn: fc.constantFrom("own column", "finger column"),
  extentsIn: fc.constantFrom("own column", "pulley column"),
  order: fc.array(fc.integer({ min: 0, max: 1_000 }), { minLength: 40, maxLength: 40 }),
  preamble: fc.constantFrom("none", "title"),
} as const);

type Row = Readonly<Record<string, string>>;

/** A sheet in a site's own words, and what each of its columns really is. */
export interface Disguised {
  readonly text: string;
  /** By name of a column, the field it holds. */
  readonly truth: ReadonlyMap<string, string>;
}

/** Writes rows of the single sheet as a site would have. */
export function disguised(rows: readonly Row[], fields: readonly string[], how: Disguise): Disguised {
  const merged = new Set([
    ...(how.handIn === "finger column" ? ["hand"] : []),
    ...(how.extentsIn === "pulley column" ? ["pulley_extents"] : []),
  ]);
  const columns = fields
    .filter((field) => !merged.has(field))
    .map((field, place) => ({ field, name: nameOf(field, how), key: how.order[place] ?? 0 }))
    .sort((one, other) => one.key - other.key);
  const lines = rows.map((row) => columns.map(({ field }) => cellOf(field, row, how)));
  const text = csvText(
    columns.map(({ name }) => name),
    lines,
  );
  const delimited =
    how.delimiter === "," ? text : reDelimited([columns.map(({ name }) => name), ...lines], how.delimiter);
  return {
    text: how.preamble === "title" ? `SYNTHETIC list of an invented site\n\n${delimited}` : delimited,
    truth: new Map(columns.map(({ field, name }) => [name, field])),
  };
}

const reDelimited = (lines: readonly (readonly string[])[], delimiter: string): string =>
  `${lines.map((line) => line.map((cell) => (/[";\t\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join(delimiter)).join("\n")}\n`;

function nameOf(field: string, { wording, unit }: Disguise): string {
  const name = names[wording][field] ?? field;
  return field.startsWith("distance_") ? `${name} (${unit})` : name;
}

const dated =
  /(?:_date|_start|_end|^date_|^first_visit$|^easy$|^full$|^previous$|^gave_up$|^new_rupture$|^last_contact$)/;

function cellOf(field: string, row: Row, how: Disguise): string {
  const cell = row[field] ?? "";
  const words = cells[how.wording];
  if (field === "finger" && how.handIn === "finger column") {
    return `${words.hand?.[row.hand ?? ""] ?? row.hand} ${words.finger?.[cell] ?? cell}`;
  }
  if (field === "pulleys") return pulleysOf(row, how);
  if (cell === "") return "";
  if (dated.test(field)) return dateOf(cell, how);
  if (field.startsWith("distance_"))
    return numberOf(how.unit === "cm" ? timesDecimal(cell, "0.1") : cell, how);
  if (field === "pulley_extents")
    return cell
      .split("|")
      .map((extent) => words.extent?.[extent] ?? extent)
      .join(" / ");
  if (field === "treatment" || field === "second_treatment") return words.treatment?.[cell] ?? cell;
  return words[field]?.[cell] ?? cell;
}

function pulleysOf(row: Row, { wording, extentsIn }: Disguise): string {
  const pulleys = (row.pulleys ?? "").split("|");
  const extents = (row.pulley_extents ?? "").split("|");
  if (extentsIn === "own column" || row.pulley_extents === "") return pulleys.join("/");
  return pulleys
    .map((pulley, place) => `${pulley} (${cells[wording].extent?.[extents[place] ?? ""] ?? extents[place]})`)
    .join(", ");
}

function dateOf(cell: string, { dates }: Disguise): string {
  const [year = "", month = "", day = ""] = cell.split("-");
  switch (dates) {
    case "iso":
      return cell;
    case "day-dots":
      return `${Number(day)}.${Number(month)}.${year}`;
    case "short-dots":
      return `${day}.${month}.${year.slice(2)}`;
    case "day-slashes":
      return `${day}/${month}/${year}`;
    case "month-slashes":
      return `${Number(month)}/${Number(day)}/${year}`;
  }
}

const numberOf = (cell: string, { decimals }: Disguise): string =>
  decimals === "comma" ? cell.replace(".", ",") : cell;

type Names = Readonly<Record<string, string>>;
const fieldNames = (list: string): Names =>
  Object.fromEntries(
    list
      .split("\n")
      .map((line) => line.split(": ").map((part) => part.trim()))
      .filter(([field]) => field !== ""),
  );

/** Column names by wording; a field that is not listed keeps its own name. */
const names = {
  english: fieldNames(`person: Patient ID
    site: Clinic
    sex: Gender
    age: Age at injury
    injury_date: Date of injury
    first_visit: First consultation
    hand: Injured hand
    finger: Injured finger
    pulleys: Pulleys
    pulley_extents: Extent of tear
    grade: Grade
    bowstringing: Bowstringing
    treatment: First treatment
    treatment_start: First treatment started
    treatment_end: First treatment ended
    second_treatment: Second treatment
    second_start: Second treatment started
    second_end: Second treatment ended
    distance_rest_first: TPD at rest, first scan
    distance_loaded_first: TPD loaded, first scan
    date_first_scan: Date of first scan
    distance_rest_last: TPD at rest, last scan
    distance_loaded_last: TPD loaded, last scan
    date_last_scan: Date of last scan
    easy: Easy climbing from
    full: Unrestricted climbing from
    previous: Back at previous level
    gave_up: Gave up climbing on
    new_rupture: New rupture on
    last_contact: Last contact
    end_status: Status at end
    level_scale: Scale
    level_before: Level before
    level_after: Level after
    notes: Comments`),
  short: fieldNames(`person: Pt no
    site: Site
    sex: Sex
    age: Age
    injury_date: DOI
    first_visit: 1st visit
    hand: Side
    finger: Digit
    pulleys: Pulley
    pulley_extents: Tear
    grade: Gr
    bowstringing: Bowstr.
    treatment: Tx
    treatment_start: Tx start
    treatment_end: Tx end
    second_treatment: 2nd Tx
    second_start: 2nd Tx start
    second_end: 2nd Tx end
    distance_rest_first: TPD rest BL
    distance_loaded_first: TPD load BL
    date_first_scan: US BL date
    distance_rest_last: TPD rest FU
    distance_loaded_last: TPD load FU
    date_last_scan: US FU date
    easy: RTC easy
    full: RTC full
    previous: Prior level
    gave_up: Quit
    new_rupture: Re-rupture
    last_contact: LFU
    end_status: Outcome
    level_scale: System
    level_before: Level pre
    level_after: Level post
    notes: Notes`),
  german: fieldNames(`person: Pat.-Nr.
    site: Standort
    sex: Geschlecht
    age: Alter
    injury_date: Unfalldatum
    first_visit: Erstvorstellung
    hand: Verletzte Hand
    finger: Verletzter Finger
    pulleys: Ringbänder
    pulley_extents: Ausmaß
    grade: Schweregrad
    bowstringing: Bowstringing
    treatment: Behandlung
    treatment_start: Behandlungsbeginn
    treatment_end: Behandlungsende
    second_treatment: Zweite Behandlung
    second_start: Zweite Behandlung Beginn
    second_end: Zweite Behandlung Ende
    distance_rest_first: Sehnenabstand Ruhe initial
    distance_loaded_first: Sehnenabstand Belastung initial
    date_first_scan: Datum Ultraschall initial
    distance_rest_last: Sehnenabstand Ruhe Verlauf
    distance_loaded_last: Sehnenabstand Belastung Verlauf
    date_last_scan: Datum Ultraschall Verlauf
    easy: Leichtes Klettern ab
    full: Uneingeschränktes Klettern ab
    previous: Altes Niveau erreicht
    gave_up: Klettern aufgegeben am
    new_rupture: Reruptur am
    last_contact: Letzter Kontakt
    end_status: Status
    level_scale: Skala
    level_before: Niveau vorher
    level_after: Niveau nachher
    notes: Bemerkungen`),
  french: fieldNames(`person: Numéro patient
    site: Centre
    sex: Sexe
    age: Âge
    injury_date: Date de la blessure
    first_visit: Première visite
    hand: Main
    finger: Doigt
    pulleys: Poulies
    pulley_extents: Étendue
    grade: Stade
    bowstringing: Corde d'arc
    treatment: Premier traitement
    treatment_start: Début du premier traitement
    treatment_end: Fin du premier traitement
    second_treatment: Deuxième traitement
    second_start: Début du deuxième traitement
    second_end: Fin du deuxième traitement
    distance_rest_first: Distance tendon-os repos initiale
    distance_loaded_first: Distance tendon-os charge initiale
    date_first_scan: Date échographie initiale
    distance_rest_last: Distance tendon-os repos finale
    distance_loaded_last: Distance tendon-os charge finale
    date_last_scan: Date échographie finale
    easy: Reprise légère
    full: Reprise sans restriction
    previous: Niveau antérieur retrouvé
    gave_up: Abandon
    new_rupture: Nouvelle rupture
    last_contact: Dernier contact
    end_status: Devenir
    level_scale: Échelle
    level_before: Niveau avant
    level_after: Niveau après
    notes: Remarques`),
  spanish: fieldNames(`person: Paciente
    site: Centro
    sex: Sexo
    age: Edad
    injury_date: Fecha de la lesión
    first_visit: Primera visita
    hand: Mano
    finger: Dedo
    pulleys: Poleas
    pulley_extents: Alcance
    grade: Grado
    bowstringing: Cuerda de arco
    treatment: Primer tratamiento
    treatment_start: Inicio primer tratamiento
    treatment_end: Fin primer tratamiento
    second_treatment: Segundo tratamiento
    second_start: Inicio segundo tratamiento
    second_end: Fin segundo tratamiento
    distance_rest_first: Distancia tendón-hueso reposo inicial
    distance_loaded_first: Distancia tendón-hueso carga inicial
    date_first_scan: Fecha ecografía inicial
    distance_rest_last: Distancia tendón-hueso reposo final
    distance_loaded_last: Distancia tendón-hueso carga final
    date_last_scan: Fecha ecografía final
    easy: Escalada suave
    full: Escalada completa
    previous: Nivel previo recuperado
    gave_up: Abandono
    new_rupture: Nueva rotura
    last_contact: Último contacto
    end_status: Desenlace
    level_scale: Escala
    level_before: Nivel antes
    level_after: Nivel después
    notes: Observaciones`),
  italian: fieldNames(`person: Paziente
    site: Sede
    sex: Sesso
    age: Età
    injury_date: Data infortunio
    first_visit: Prima visita
    hand: Mano
    finger: Dito
    pulleys: Pulegge
    pulley_extents: Entità
    grade: Grado
    bowstringing: Corda d'arco
    treatment: Primo trattamento
    treatment_start: Inizio primo trattamento
    treatment_end: Fine primo trattamento
    second_treatment: Secondo trattamento
    second_start: Inizio secondo trattamento
    second_end: Fine secondo trattamento
    distance_rest_first: Distanza tendine-osso riposo iniziale
    distance_loaded_first: Distanza tendine-osso carico iniziale
    date_first_scan: Data ecografia iniziale
    distance_rest_last: Distanza tendine-osso riposo finale
    distance_loaded_last: Distanza tendine-osso carico finale
    date_last_scan: Data ecografia finale
    easy: Arrampicata facile
    full: Arrampicata completa
    previous: Livello precedente
    gave_up: Abbandono
    new_rupture: Nuova rottura
    last_contact: Ultimo contatto
    end_status: Esito
    level_scale: Scala
    level_before: Livello prima
    level_after: Livello dopo
    notes: Note`),
} as const;

type Words = Readonly<Record<string, Names>>;
const words = (list: Readonly<Record<string, string>>): Words =>
  Object.fromEntries(
    Object.entries(list).map(([field, pairs]) => [
      field,
      Object.fromEntries(pairs.split(", ").map((pair) => pair.split("="))),
    ]),
  );

/** Words of cells by wording. */
const cells: Readonly<Record<keyof typeof names, Words>> = {
  english: words({
    hand: "left=Left, right=Right",
    finger: "index=index finger, middle=middle finger, ring=ring finger, little=little finger",
    sex: "female=Female, male=Male, other=Other, not_stated=not stated",
    grade: "1=Grade I, 2=Grade II, 3=Grade III, 4a=Grade IVa, 4b=Grade IVb",
    extent: "strain=strain, partial=partial, complete=complete",
    treatment:
      "tape=taping, ring=ring splint, surgery=surgical repair, rest=rest, rehabilitation=physiotherapy",
    bowstringing: "none=no, imaging_only=only on ultrasound, visible=visible",
    end_status: "completed=completed, lost=lost to follow-up, in_follow_up=ongoing, gave_up=quit climbing",
  }),
  short: words({
    hand: "left=L, right=R",
    finger: "index=D2, middle=D3, ring=D4, little=D5",
    sex: "female=f, male=m",
    grade: "1=I, 2=II, 3=III, 4a=IV a, 4b=IV b",
    extent: "strain=strain, partial=part, complete=compl",
    treatment: "tape=tape, ring=ring, surgery=OP, rest=rest, rehabilitation=rehab",
    bowstringing: "none=n, imaging_only=US only, visible=visible",
    end_status: "completed=closed, lost=LTFU, in_follow_up=active, gave_up=quit",
  }),
  german: words({
    hand: "left=li, right=re",
    finger: "index=ZF, middle=MF, ring=RF, little=KF",
    sex: "female=w, male=m, other=divers, not_stated=keine Angabe",
    grade: "1=Grad I, 2=Grad II, 3=Grad III, 4a=Grad IVa, 4b=Grad IVb",
    extent: "strain=Zerrung, partial=Teilruptur, complete=komplett",
    treatment:
      "tape=Tapeverband, ring=Ringschiene, surgery=Operation, rest=Schonung, rehabilitation=Physiotherapie, other=Sonstiges",
    bowstringing: "none=kein, imaging_only=nur sonographisch, visible=sichtbar",
    end_status:
      "completed=abgeschlossen, lost=nicht erreichbar, in_follow_up=laufend, gave_up=aufgegeben, other=verzogen, died=verstorben",
  }),
  french: words({
    hand: "left=gauche, right=droite",
    finger: "index=index, middle=majeur, ring=annulaire, little=auriculaire",
    sex: "female=femme, male=homme, other=autre",
    grade: "1=Stade I, 2=Stade II, 3=Stade III, 4a=Stade IVa, 4b=Stade IVb",
    extent: "strain=entorse, partial=partielle, complete=complète",
    treatment: "tape=strap, ring=bague, surgery=chirurgie, rest=repos, rehabilitation=kiné, other=autre",
    bowstringing: "none=absente, imaging_only=échographie seule, visible=visible",
    end_status:
      "completed=terminé, lost=perdu de vue, in_follow_up=en cours, gave_up=abandon, died=décédé, other=autre",
  }),
  spanish: words({
    hand: "left=izquierda, right=derecha",
    finger: "index=índice, middle=corazón, ring=anular, little=meñique",
    sex: "female=mujer, male=hombre, other=otro",
    grade: "1=Grado 1, 2=Grado 2, 3=Grado 3, 4a=Grado 4a, 4b=Grado 4b",
    extent: "strain=esguince, partial=parcial, complete=completa",
    treatment:
      "tape=vendaje, ring=férula anular, surgery=cirugía, rest=reposo, rehabilitation=fisioterapia, other=otro",
    bowstringing: "none=ninguno, imaging_only=solo ecografía, visible=visible",
    end_status:
      "completed=completado, lost=perdido, in_follow_up=en curso, gave_up=abandono, died=fallecido, other=otro",
  }),
  italian: words({
    hand: "left=sx, right=dx",
    finger: "index=indice, middle=medio, ring=anulare, little=mignolo",
    sex: "female=femmina, male=maschio, other=altro",
    grade: "1=Grado I, 2=Grado II, 3=Grado III, 4a=Grado IVa, 4b=Grado IVb",
    extent: "strain=stiramento, partial=parziale, complete=completa",
    treatment:
      "tape=bendaggio, ring=anello, surgery=intervento, rest=riposo, rehabilitation=fisioterapia, other=altro",
    bowstringing: "none=assente, imaging_only=solo eco, visible=visibile",
    end_status:
      "completed=concluso, lost=perso, in_follow_up=in corso, gave_up=abbandono, died=deceduto, other=altro",
  }),
};
