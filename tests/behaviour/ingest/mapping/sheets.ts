import { readGrid } from "../../../../src/ingest/grid/index.js";
import { type ShapedSheet, shapeSheet } from "../../../../src/ingest/grid/shape/shape-sheet.js";

/** A sheet from its text, taken apart. */
export function sheetOf(text: string, file = "sheet.csv"): ShapedSheet {
  const { grid } = readGrid({ file, bytes: new TextEncoder().encode(text) });
  const sheet = grid === null ? null : shapeSheet(grid);
  if (sheet === null) throw new Error(`${file} has no header`);
  return sheet;
}

/** Invented sheets of invented sites, each in its own wording. */
export const wordings = {
  "English, verbose": `Patient number,Sex (m/f),Age at injury,Date of injury,First consultation,Injured hand,Injured finger,Injured pulleys,Grade of injury,Bowstringing,Treatment given,Treatment started,Treatment ended,TPD at rest first scan (mm),TPD under load first scan (mm),Date of first scan,TPD at rest last scan (mm),TPD under load last scan (mm),Date of last scan,Easy climbing again,Unrestricted climbing again,Previous level reached,Last contact,Outcome,Climbing level before injury,Climbing level after,Remarks
K-101,m,24,17/02/2023,21/02/2023,left,ring finger,A2,Grade 3,visible,ring splint,23/02/2023,20/04/2023,2.1,4.2,21/02/2023,1.8,3.1,18/05/2023,28/03/2023,25/05/2023,14/08/2023,12/01/2024,completed,7a,7a,climbs abroad
K-102,f,31,03/03/2023,09/03/2023,right,middle finger,A2/A3,Grade 4b,visible,surgery,30/03/2023,30/03/2023,2.8,5.6,09/03/2023,1.9,2.9,29/09/2023,21/07/2023,13/10/2023,,01/03/2024,lost to follow-up,7c,7a+,
K-103,f,19,28/03/2023,28/03/2023,right,ring finger,A4,Grade 2,no,tape,28/03/2023,25/04/2023,1.1,1.9,28/03/2023,,,,02/05/2023,30/05/2023,27/06/2023,28/11/2023,completed,6b+,6c,
K-104,m,45,11/04/2023,16/04/2023,left,little finger,A2,Grade 1,no,taping,16/04/2023,07/05/2023,0.9,1.3,16/04/2023,,,,25/04/2023,16/05/2023,20/06/2023,19/12/2023,completed,6a,6a,
`,
  abbreviations: `ID;Sx;Age;DOI;1st visit;Side;Dig;Pull.;Gr.;Tx;Tx start;Tx end;TPD rest BL (mm);TPD load BL (mm);US date;TPD rest FU (mm);TPD load FU (mm);US2 date;RTC easy;RTC full;LFU;Stat
1;m;24;17.2.23;21.2.23;L;D4;A2;III;ring;23.2.23;20.4.23;2,1;4,2;21.2.23;1,8;3,1;18.5.23;28.3.23;25.5.23;12.1.24;completed
2;f;31;3.3.23;9.3.23;R;D3;A2/A3;IVb;OP;30.3.23;30.3.23;2,8;5,6;9.3.23;1,9;2,9;29.9.23;21.7.23;13.10.23;1.3.24;ltfu
3;f;19;28.3.23;28.3.23;R;D4;A4;II;tape;28.3.23;25.4.23;1,1;1,9;28.3.23;;;;2.5.23;30.5.23;28.11.23;completed
4;m;45;11.4.23;16.4.23;L;D5;A2;I;tape;16.4.23;7.5.23;0,9;1,3;16.4.23;;;;25.4.23;16.5.23;19.12.23;completed
`,
  German: `Pat.-Nr.;Geschlecht;Alter;Unfalldatum;Erstvorstellung;Verletzte Hand;Finger;Ringband;Ausmaß;Schweregrad;Bowstringing;Therapie;Therapiebeginn;Therapieende;Sehnenabstand Ruhe initial (mm);Sehnenabstand Belastung initial (mm);Sonodatum;Sehnenabstand Ruhe Verlauf (mm);Sehnenabstand Belastung Verlauf (mm);Sono Verlauf am;Leichtes Klettern ab;Uneingeschränktes Klettern ab;Altes Niveau wieder erreicht am;Letzter Kontakt;Ausgang;Kletterniveau vorher;Kletterniveau nachher;Bemerkungen
F-01;männlich;24;17.02.2023;21.02.2023;links;Ringfinger;A2;komplett;Grad III;sichtbar;Ringschiene;23.02.2023;20.04.2023;2,1;4,2;21.02.2023;1,8;3,1;18.05.2023;28.03.2023;25.05.2023;14.08.2023;12.01.2024;abgeschlossen;7a;7a;
F-02;weiblich;31;03.03.2023;09.03.2023;rechts;Mittelfinger;A2+A3;komplett, komplett;Grad IV b;sichtbar;Operation;30.03.2023;30.03.2023;2,8;5,6;09.03.2023;1,9;2,9;29.09.2023;21.07.2023;13.10.2023;noch nicht;01.03.2024;nicht erreichbar;7c;7a+;verzogen
F-03;weiblich;19;28.03.2023;28.03.2023;rechts;Ringfinger;A4;Teilruptur;Grad II;nein;Tapeverband;28.03.2023;25.04.2023;1,1;1,9;28.03.2023;;;;02.05.2023;30.05.2023;27.06.2023;28.11.2023;abgeschlossen;6b+;6c;
F-04;männlich;45;11.04.2023;16.04.2023;links;Kleinfinger;A2;Zerrung;Grad I;nein;Tape;16.04.2023;07.05.2023;0,9;1,3;16.04.2023;;;;25.04.2023;16.05.2023;20.06.2023;19.12.2023;abgeschlossen;6a;6a;
`,
  French: `Dossier;Sexe;Âge;Date de l'accident;Première consultation;Main;Doigt;Poulie(s);Stade;Traitement;Début du traitement;Fin du traitement;Distance tendon-os repos initiale (mm);Distance tendon-os en charge initiale (mm);Date échographie;Reprise légère;Reprise sans restriction;Retour au niveau antérieur;Dernier contact;Devenir;Niveau avant blessure;Remarques
G1;Homme;24;17/02/2023;21/02/2023;gauche;annulaire;A2;III;bague thermoformée;23/02/2023;20/04/2023;2,1;4,2;21/02/2023;28/03/2023;25/05/2023;14/08/2023;12/01/2024;terminé;7a;
G2;Femme;31;03/03/2023;09/03/2023;droite;majeur;A2/A3;IVb;chirurgie;30/03/2023;30/03/2023;2,8;5,6;09/03/2023;21/07/2023;13/10/2023;;01/03/2024;perdu de vue;7c;
G3;Femme;19;28/03/2023;28/03/2023;droite;annulaire;A4;II;strap;28/03/2023;25/04/2023;1,1;1,9;28/03/2023;02/05/2023;30/05/2023;27/06/2023;28/11/2023;terminé;6b+;
G4;Homme;45;11/04/2023;16/04/2023;gauche;auriculaire;A2;I;strap;16/04/2023;07/05/2023;0,9;1,3;16/04/2023;25/04/2023;16/05/2023;20/06/2023;19/12/2023;terminé;6a;
`,
  Spanish: `Nº paciente;Sexo;Edad;Fecha de la lesión;Primera visita;Mano;Dedo;Polea;Tipo de rotura;Grado;Tratamiento;Inicio del tratamiento;Fin del tratamiento;Distancia tendón-falange en reposo inicial (mm);Distancia tendón-falange en carga inicial (mm);Fecha ecografía;Escalada suave desde;Escalada sin restricciones desde;Nivel previo recuperado;Último contacto;Estado;Nivel antes de la lesión;Observaciones
E-1;hombre;24;17/02/2023;21/02/2023;izquierda;anular;A2;completa;Grado III;férula de anillo;23/02/2023;20/04/2023;2,1;4,2;21/02/2023;28/03/2023;25/05/2023;14/08/2023;12/01/2024;completado;7a;
E-2;mujer;31;3 de marzo de 2023;09/03/2023;derecha;medio;A2/A3;completa, completa;Grado IV b;cirugía;30/03/2023;30/03/2023;2,8;5,6;09/03/2023;21/07/2023;todavía no;;01/03/2024;perdido;7c;
E-3;mujer;19;28/03/2023;28/03/2023;derecha;anular;A4;parcial;Grado II;tape;28/03/2023;25/04/2023;1,1;1,9;28/03/2023;02/05/2023;30/05/2023;27/06/2023;28/11/2023;completado;6b+;
E-4;hombre;45;11/04/2023;16/04/2023;izquierda;meñique;A2;parcial;Grado I;tape;16/04/2023;07/05/2023;0,9;1,3;16/04/2023;25/04/2023;16/05/2023;20/06/2023;19/12/2023;completado;6a;
`,
  Italian: `N. paziente;Sesso;Età;Data dell'infortunio;Prima visita;Mano;Dito;Puleggia;Entità;Grado;Trattamento;Inizio trattamento;Fine trattamento;Distanza tendine-osso a riposo iniziale (mm);Distanza tendine-osso sotto carico iniziale (mm);Data ecografia;Arrampicata leggera dal;Arrampicata senza limitazioni dal;Livello precedente raggiunto;Ultimo contatto;Esito;Livello prima della lesione;Note
I-1;maschio;24;17/02/2023;21/02/2023;sinistra;anulare;A2;completa;Grado III;tutore ad anello;23/02/2023;20/04/2023;2,1;4,2;21/02/2023;28/03/2023;25/05/2023;14/08/2023;12/01/2024;completato;7a;
I-2;femmina;31;3 marzo 2023;09/03/2023;destra;medio;A2/A3;completa, completa;Grado IV b;intervento;30/03/2023;30/03/2023;2,8;5,6;09/03/2023;21/07/2023;non ancora;;01/03/2024;perso;7c;
I-3;femmina;19;28/03/2023;28/03/2023;destra;anulare;A4;parziale;Grado II;nastro;28/03/2023;25/04/2023;1,1;1,9;28/03/2023;02/05/2023;30/05/2023;27/06/2023;28/11/2023;completato;6b+;
I-4;maschio;45;11/04/2023;16/04/2023;sinistra;mignolo;A2;stiramento;Grado I;nastro;16/04/2023;07/05/2023;0,9;1,3;16/04/2023;25/04/2023;16/05/2023;20/06/2023;19/12/2023;completato;6a;
`,
  Dutch: `Patiëntnr;Geslacht;Leeftijd;Ongevalsdatum;Eerste consult;Aangedane hand;Vinger;Pulley;Mate van letsel;Graad;Bowstringing;Behandeling;Start behandeling;Einde behandeling;Peesafstand in rust eerste echo (mm);Peesafstand belast eerste echo (mm);Datum eerste echo;Peesafstand in rust laatste echo (mm);Peesafstand belast laatste echo (mm);Datum laatste echo;Voorzichtig klimmen vanaf;Onbeperkt klimmen vanaf;Oude niveau weer bereikt;Laatste contact;Afloop;Klimniveau voor letsel;Klimniveau na letsel;Opmerkingen
N-01;man;24;17-02-2023;21-02-2023;links;ringvinger;A2;compleet;Graad III;zichtbaar;ringspalk;23-02-2023;20-04-2023;2,1;4,2;21-02-2023;1,8;3,1;18-05-2023;28-03-2023;25-05-2023;14-08-2023;12-01-2024;afgerond;7a;7a;
N-02;vrouw;31;3 mrt 2023;9 mrt 2023;rechts;middelvinger;A2+A3;compleet, compleet;Graad IV b;zichtbaar;operatie;30-03-2023;30-03-2023;2,8;5,6;09-03-2023;1,9;2,9;29-09-2023;21-07-2023;13-10-2023;nog niet;01-03-2024;niet bereikbaar;7c;7a+;verhuisd
N-03;vrouw;19;28-03-2023;28-03-2023;rechts;ringvinger;A4;gedeeltelijk;Graad II;geen;tape;28-03-2023;25-04-2023;1,1;1,9;28-03-2023;;;;02-05-2023;30-05-2023;27-06-2023;28-11-2023;afgerond;6b+;6c;
N-04;man;45;11-04-2023;16-04-2023;links;pink;A2;verrekking;Graad I;geen;tape;16-04-2023;07-05-2023;0,9;1,3;16-04-2023;;;;25-04-2023;16-05-2023;20-06-2023;19-12-2023;afgerond;6a;6a;
`,
  Polish: `Nr pacjenta;Płeć;Wiek;Data urazu;Pierwsza wizyta;Ręka;Palec;Troczek;Rozległość uszkodzenia;Stopień urazu;Objaw cięciwy;Leczenie;Początek leczenia;Koniec leczenia;Odległość ścięgno-kość w spoczynku pierwsze USG (mm);Odległość ścięgno-kość z obciążeniem pierwsze USG (mm);Data pierwszego USG;Odległość ścięgno-kość w spoczynku ostatnie USG (mm);Odległość ścięgno-kość z obciążeniem ostatnie USG (mm);Data ostatniego USG;Łatwe wspinanie od;Wspinanie bez ograniczeń od;Poprzedni poziom osiągnięty;Ostatni kontakt;Wynik;Poziom przed urazem;Poziom po urazie;Uwagi
S/01;mężczyzna;24;17.02.2023;21.02.2023;lewa;palec serdeczny;A2;całkowite;stopień III;widoczny;obrączka;23.02.2023;20.04.2023;2,1;4,2;21.02.2023;1,8;3,1;18.05.2023;28.03.2023;25.05.2023;14.08.2023;12.01.2024;zakończone;7a;7a;
S/02;kobieta;31;3 marca 2023 r.;9 marca 2023 r.;prawa;palec środkowy;A2+A3;całkowite, całkowite;stopień IV b;widoczny;operacja;30.03.2023;30.03.2023;2,8;5,6;09.03.2023;1,9;2,9;29.09.2023;21.07.2023;13.10.2023;jeszcze nie;01.03.2024;brak kontaktu;7c;7a+;
S/03;kobieta;19;28.03.2023;28.03.2023;prawa;palec serdeczny;A4;częściowe;stopień II;nie;tejpowanie;28.03.2023;25.04.2023;1,1;1,9;28.03.2023;;;;02.05.2023;30.05.2023;27.06.2023;28.11.2023;zakończone;6b+;6c;
S/04;mężczyzna;45;11.04.2023;16.04.2023;lewa;mały palec;A2;naciągnięcie;stopień I;nie;plastrowanie;16.04.2023;07.05.2023;0,9;1,3;16.04.2023;;;;25.04.2023;16.05.2023;20.06.2023;19.12.2023;zakończone;6a;6a;
`,
  mixed: `Code\tSex\tInjury date\tFinger\tA2\tA3\tA4\tGrade\tTherapy\tTherapy from\tDist. rest [cm]\tDist. loaded [cm]\tSono\tBack on the wall\tFull\tLast seen
x1\tw\t2/17/2023\tL ring\tpartial\t\t\t2\tTape\t2/23/2023\t0.21\t0.32\t2/21/2023\t3/28/2023\t5/25/2023\t1/12/2024
x2\tm\t3/3/2023\tR middle\tcomplete\tpartial\t\tIV\tRing\t3/30/2023\t0.28\t0.56\t3/9/2023\t7/21/2023\t10/13/2023\t3/1/2024
x3\tw\t3/28/2023\tR Ringfinger\t\t\tcomplete\t2\tPhysio\t3/28/2023\t0.11\t0.19\t3/28/2023\t5/2/2023\t5/30/2023\t11/28/2023
x4\tm\t4/11/2023\tli. Kleinfinger\tstrain\t\t\t1\tTape\t4/16/2023\t0.09\t0.13\t4/16/2023\t4/25/2023\tnot yet\t12/19/2023
`,
} as const;
