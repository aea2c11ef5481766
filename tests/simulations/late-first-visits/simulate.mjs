// Where is a share back by week 13 nearer the truth: with everybody at risk from the injury on, or from the first visit on?
// node simulate.mjs > results.csv. Nothing of the toolkit is used.
const write = (line) => process.stdout.write(`${line}\n`);
const draws = 1000;
const week13 = 91;
const z95 = 1.959964;

/** Mulberry32, a small seeded generator of uniform numbers. */
let state = 11;
function uniform() {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

/**
 * Days to the return: log-normal, median 70 days. Days to the first visit: log-normal with the given median; correlation of the two on
 * the log scale, below 0 where those hurt worst, who return late, are seen soon. In time: only somebody not yet back by the first
 * visit comes into the data; all: everybody does, as where returns are asked for at the first visit.
 */
function draw({ delay, correlation, seen }) {
  for (;;) {
    const z = normal();
    const back = Math.ceil(Math.exp(Math.log(70) + 0.5 * z));
    const other = Math.sqrt(1 - correlation ** 2) * normal();
    const visit = Math.floor(Math.exp(Math.log(delay) + 0.7 * (correlation * z + other)));
    if (seen === "in time" && back <= visit) continue;
    const lost = visit + Math.ceil(-400 * Math.log(1 - uniform()));
    return { visit, time: Math.min(back, lost), event: back <= lost };
  }
}

/** Share back by week 13 with limits on the log-log scale by Greenwood's variance, on (entry, time]. */
function share(rows) {
  const days = [
    ...new Set(rows.filter(({ event, time }) => event && time <= week13).map(({ time }) => time)),
  ];
  let notYet = 1;
  let sum = 0;
  for (const day of days.sort((a, b) => a - b)) {
    const atRisk = rows.filter(({ entry, time }) => entry < day && time >= day).length;
    const back = rows.filter(({ event, time }) => event && time === day).length;
    notYet *= 1 - back / atRisk;
    sum += back / (atRisk * (atRisk - back));
  }
  if (notYet <= 0 || notYet >= 1) return { back: 1 - notYet, lower: null, upper: null };
  const spread = Math.exp((z95 * Math.sqrt(sum)) / Math.abs(Math.log(notYet)));
  return { back: 1 - notYet, lower: 1 - notYet ** (1 / spread), upper: 1 - notYet ** spread };
}

const truth = shareBefore((Math.log(week13) - Math.log(70)) / 0.5);
/** Standard normal distribution function by its series. */
function shareBefore(x) {
  let term = x;
  let sum = x;
  for (let k = 1; k < 60; k++) {
    term *= (x * x) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + (sum * Math.exp((-x * x) / 2)) / Math.sqrt(2 * Math.PI);
}

const told = (found) => {
  const off = found.map(({ back }) => 100 * (back - truth));
  const mean = off.reduce((sum, one) => sum + one, 0) / off.length;
  const error = Math.sqrt(off.reduce((sum, one) => sum + one ** 2, 0) / off.length);
  const held = found.filter(({ lower, upper }) => lower !== null && lower <= truth && truth <= upper).length;
  return [mean.toFixed(1), error.toFixed(1), ((100 * held) / found.length).toFixed(1)];
};

write(
  "seen,correlation,median_delay,n,clock_bias,clock_error,clock_coverage,entry_bias,entry_error,entry_coverage",
);
for (const seen of ["in time", "all"])
  for (const correlation of [0, -0.4, 0.4])
    for (const delay of [5, 14, 28])
      for (const n of [40, 80, 200]) {
        const clock = [];
        const entry = [];
        for (let one = 0; one < draws; one++) {
          const rows = Array.from({ length: n }, () => draw({ delay, correlation, seen }));
          clock.push(share(rows.map((row) => ({ ...row, entry: -1 }))));
          entry.push(
            share(
              rows.filter(({ time, visit }) => time > visit).map((row) => ({ ...row, entry: row.visit })),
            ),
          );
        }
        write([seen, correlation, delay, n, ...told(clock), ...told(entry)].join(","));
      }
