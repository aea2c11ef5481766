# Writes the CSV files of every topic. Data come from Debian R packages, from
# published tables typed in below, or from a seeded generator. Writes TOPIC/NAME.csv into the folder it runs in,
# which lies beside r/.
suppressPackageStartupMessages({library(survival); library(MASS)})
source("../r/synthetic-cohort.R"); RNGkind("Mersenne-Twister", "Inversion", "Rejection")
out <- function(d, topic, name) { dir.create(topic, FALSE)
  write.csv(d, file.path(topic, paste0(name, ".csv")), row.names = FALSE, na = "", quote = FALSE) }
pk <- function(name, package) { e <- new.env(); data(list = name, package = package, envir = e); get(name, e) }

## --- time to event ----------------------------------------------------------
# Freireich et al. 1963 (Blood 21:699): weeks in remission, typed from the table
freireich <- data.frame(
  group = rep(c("placebo", "6-MP"), each = 21),
  weeks = c(1,1,2,2,3,4,4,5,5,8,8,8,8,11,11,12,12,15,17,22,23,
            6,6,6,6,7,9,10,10,11,13,16,17,19,20,22,23,25,32,32,34,35),
  relapse = c(rep(1, 21), 1,1,1,0,1,0,1,0,0,1,1,0,0,0,1,1,0,0,0,0,0))
k <- pk("drug6mp", "KMsurv")   # the same data as paired rows: cross-check of the typing
stopifnot(all(sort(k$t1) == sort(freireich$weeks[1:21])),
          all(sort(k$t2 + k$relapse/10) == sort(freireich$weeks[22:42] + freireich$relapse[22:42]/10)))
lung <- with(survival::lung, data.frame(time, status = status - 1, age, sex, ecog = ph.ecog, karno = ph.karno, wt_loss = wt.loss, inst))
ch <- pk("channing", "KMsurv"); men <- ch[ch$gender == 1 & ch$ageentry < ch$age, ]
men <- data.frame(entry_months = men$ageentry, exit_months = men$age, death = men$death)
aml <- with(survival::aml, data.frame(group = sub("ed$", "", as.character(x)), time, status))
aml$weight_int <- rep(c(1,2,1,3), length.out = 23); aml$weight_dec <- round(seq(0.35, 2.55, length.out = 23)[c(12:23, 1:11)], 2)
flat <- data.frame(time = c(0,1,1,2,3,3,4,5), status = c(1,1,0,1,0,1,0,1))
for (t in c("km", "rmst", "logrank", "cox")) out(freireich, t, "freireich")
for (t in c("km", "rmst", "logrank", "cox", "aft")) out(lung, t, "lung")
out(men, "km", "channing_men"); out(aml, "km", "aml_weights"); out(flat, "km", "flat_step"); out(aml, "cox", "aml_weights")
bmt <- pk("bmt", "KMsurv")
bmt <- with(bmt, data.frame(group = c("ALL", "AML-low", "AML-high")[group], t_death = t1, d_death = d1, t_dfs = t2,
  relapse = d2, dfs_event = d3, cause = ifelse(d2 == 1, 1, ifelse(d3 == 1, 2, 0)), fab = z8, age = z1, donor_age = z2))
for (t in c("bands", "logrank", "competing")) out(bmt, t, "bmt")
lar <- pk("larynx", "KMsurv"); lar <- with(lar, data.frame(stage, time, death = delta, age, year = diagyr))
for (t in c("logrank", "cox", "aft")) out(lar, t, "larynx")
vet <- with(survival::veteran, data.frame(trt, celltype = as.character(celltype), time, status, karno, diagtime, age, prior))
for (t in c("logrank", "cox")) out(vet, t, "veteran")
out(with(survival::ovarian, data.frame(time = futime, status = fustat, age, resid_ds = resid.ds, rx, ecog_ps = ecog.ps)), "cox", "ovarian")
out(with(survival::ovarian, data.frame(time = futime, status = fustat, age, resid_ds = resid.ds, rx, ecog_ps = ecog.ps)), "aft", "ovarian")
out(with(survival::jasa1, data.frame(id, start, stop, event, transplant, age, year, surgery)), "cox", "heart_transplant")
out(data.frame(time = c(1,1,6,6,8,9), status = c(1,0,1,1,0,1), x = c(1,1,1,0,0,0)), "cox", "hand_worked_1")
out(with(survival::bladder2, data.frame(id, start, stop, event, enum, rx, number, size)), "cox", "bladder_recurrences")
out(with(survival::kidney, data.frame(id, time, status, age, sex)), "cox", "kidney_catheter")
bc <- pk("bcdeter", "KMsurv")
# two corrections to the packaged copy (95 rows; the paper has 94): the (34,34) row is a
# stray duplicate and the (48,48) row is a patient still event-free at 48. With them the
# maximum-likelihood masses agree with the published ones to four decimals.
bc <- bc[!(bc$lower == 34 & !is.na(bc$upper) & bc$upper == 34), ]; bc$upper[bc$lower == 48] <- NA; stopifnot(nrow(bc) == 94)
bc <- with(bc, data.frame(treatment = c("radiotherapy", "radio+chemo")[treat], left = lower, right = ifelse(is.na(upper), NA, upper)))
for (t in c("interval_npmle", "aft")) out(bc, t, "breast_cosmesis")
out(data.frame(time = rep(1:4, each = 3), kind = rep(c("exact", "right", "left"), 4), count = c(12,3,2,6,2,4,2,0,2,3,3,5)), "interval_npmle", "turnbull1974")
mel <- with(MASS::Melanoma, data.frame(time, cause = c(1, 0, 2)[status], sex, age, year, thickness, ulcer))
out(mel, "competing", "melanoma")
out(with(survival::mgus2, data.frame(months = ifelse(pstat == 0, futime, ptime), cause = ifelse(pstat == 0, 2*death, 1), sex = as.character(sex), age)), "competing_means", "mgus2")

## --- penalised and binary regression ------------------------------------------
fetched <- Sys.getenv("FETCHED_DIR")   # folder with copies of the R packages coxphf and logistf (GPL); only needed to rebuild two CSVs
if (nzchar(fetched)) {
  br <- read.table(gzfile(file.path(fetched, "coxphf_src/data/breast.txt.gz")), header = TRUE, sep = ""); out(br[, c("T","N","G","CD","TIME","CENS")], "cox_firth", "breast_heinze2001")
  e <- new.env(); load(file.path(fetched, "logistf_src/data/sex2.rda"), e); out(e$sex2, "logistic", "urinary_infection")
}
out(data.frame(time = 1:3, status = 1, x = c(1, 1, 0)), "cox_firth", "three_subjects")
set.seed(20240901); n <- 24; ne <- data.frame(time = round(c(rexp(12, .05), runif(12, 5, 60)), 1), status = 0, group = rep(0:1, each = 12), age = round(rnorm(n, 35, 8)))
ne$status[1:12] <- c(1,1,1,0,1,1,1,1,0,1,1,0); for (t in c("cox_firth", "infinite_hazard")) out(ne, t, "group_without_events")
en <- pk("endometrial", "brglm2"); out(en, "logistic", "endometrial")
bw <- with(MASS::birthwt, data.frame(low, age, lwt, race_black = +(race == 2), race_other = +(race == 3), smoke, ptl, ht, ui, ftv, bwt))
for (t in c("logistic", "logistic_more")) out(bw, t, "birthwt")

## --- continuous outcomes --------------------------------------------------------
sl <- with(datasets::sleep, data.frame(id = ID, drug = group, extra)); out(data.frame(subject = 1:10, drug1 = sl$extra[1:10], drug2 = sl$extra[11:20]), "continuous", "sleep")
out(data.frame(first = c(1.83,0.50,1.62,2.48,1.68,1.88,1.55,3.06,1.30), second = c(0.878,0.647,0.598,2.05,1.06,1.29,1.06,3.14,1.29)), "continuous", "depression_scores")
out(data.frame(group = rep(c("term", "early"), c(10, 5)), value = c(0.80,0.83,1.89,1.04,1.45,1.38,1.91,1.64,0.73,1.46, 1.15,0.88,0.90,0.74,1.21)), "continuous", "membrane")
aq <- datasets::airquality; aq <- aq[aq$Month %in% c(5, 8) & !is.na(aq$Ozone), ]; out(data.frame(month = aq$Month, ozone = aq$Ozone), "continuous", "ozone_ties")
out(with(MASS::anorexia, data.frame(treatment = as.character(Treat), pre = Prewt, post = Postwt)), "continuous", "anorexia")
out(data.frame(pair = 1:12, before = c(12,15,9,20,17,11,14,18,16,13,10,19), after = c(10,15,9,16,15,12,11,14,16,10,11,15)), "continuous", "paired_ties_zeros")

## --- proportions ------------------------------------------------------------------
out(data.frame(x = c(81,15,0,1,29,10,3,1), n = c(263,148,20,29,29,10,7,1)), "proportions", "single")
out(data.frame(name = c("a","b","c","d","e","f","g","h","tea_tasting","convictions","ordinary","large"), a = c(56,9,6,5,0,0,10,10,3,2,30,1500), b = c(14,1,1,51,10,10,0,0,1,15,70,8500), c = c(48,3,2,0,0,0,0,0,1,10,45,1700), d = c(32,7,5,29,20,10,20,10,3,3,55,8300)), "proportions", "tables")
out(data.frame(name = c("approval","small","one_sided","none"), a = c(794,5,10,7), b = c(86,6,4,0), c = c(150,1,0,0), d = c(570,8,6,3)), "proportions", "paired")

## --- NIST statistical reference datasets (public domain, U.S. government) -----------
nist <- Sys.getenv("NIST_DIR")   # folder with the original .dat files; only needed to rebuild these CSVs
if (nzchar(nist)) { rl <- function(f) readLines(file.path(nist, f)); num <- function(l) strsplit(trimws(l), "[[:space:]]+")
  dir.create("nist", FALSE); wr <- function(rows, head, name) writeLines(c(paste(head, collapse = ","), vapply(rows, paste, "", collapse = ",")), file.path("nist", paste0(name, ".csv")))
  blk <- function(f, pat, width) { l <- rl(f); i <- grep(pat, l); i <- i[length(i)]; r <- num(l[(i + 1):length(l)]); r[lengths(r) == width & vapply(r, function(x) all(grepl("^[-+0-9.eE]*[0-9][-+0-9.eE]*$", x)), TRUE)] }
  wr(blk("Norris.dat", "^Data:", 2), c("y", "x"), "Norris"); wr(blk("Longley.dat", "^Data:", 7), c("y", paste0("x", 1:6)), "Longley"); wr(blk("Filip.dat", "^Data:", 2), c("y", "x"), "Filip")
  for (u in c("NumAcc1", "NumAcc4", "Lew", "Mavro", "Michelso")) wr(blk(paste0(u, ".dat"), "^Data", 1), "y", u)
  sm <- function(f) blk(f, "^ *Data", 2)
  for (a in c("SiRstv", "SmLs01", "SmLs04", "SmLs07")) wr(sm(paste0("anova/", a, ".dat")), c("treatment", "y"), a) }

## --- repeated measurements ----------------------------------------------------------
or <- with(nlme::Orthodont, data.frame(subject = as.character(Subject), sex = as.character(Sex), age, distance)); or$keep <- +!((seq_len(108) %% 7 == 0) | (or$subject %in% c("M05", "F03") & or$age > 10)); for (t in c("mixed", "mixed_slope")) out(or, t, "orthodont")
for (t in c("mixed", "mixed_slope")) out(with(lme4::sleepstudy, data.frame(subject = Subject, days = Days, reaction = Reaction)), t, "sleepstudy")

## --- agreement -----------------------------------------------------------------------------
out(data.frame(rater1 = c(9,6,8,7,10,6), rater2 = c(2,1,4,1,5,2), rater3 = c(5,3,6,2,6,4), rater4 = c(8,2,8,6,9,7)), "agreement", "shrout_fleiss")
out(data.frame(wright1 = c(494,395,516,434,476,557,413,442,650,433,417,656,267,478,178,423,427), wright2 = c(490,397,512,401,470,611,415,431,638,429,420,633,275,492,165,372,421),
  mini1 = c(512,430,520,428,500,600,364,380,658,445,432,626,260,477,259,350,451), mini2 = c(525,415,508,444,500,625,460,390,642,432,420,605,227,467,268,370,443)), "agreement", "peak_flow")
for (v in list(c("MSPatients", "ms_winnipeg"), c("SexualFun", "satisfaction"))) { z <- pk(v[1], "vcd"); if (length(dim(z)) == 3) z <- z[, , 1]; out(setNames(as.data.frame(unclass(z)), paste0("c", seq_len(ncol(z)))), "agreement", v[2]) }

out(with(pk("aSAH", "pROC"), data.frame(poor = +(outcome == "Poor"), wfns = as.numeric(as.character(wfns)), s100b, ndka)), "agreement_more", "haemorrhage")

## --- bootstrap: data and fixed resamples (1-based row numbers) -----------------------------
set.seed(20240902); rs <- function(B, n) { m <- t(replicate(B, sample(n, n, replace = TRUE))); colnames(m) <- paste0("i", 1:n); as.data.frame(m) }
out(data.frame(value = c(2.1,3.4,1.9,5.6,2.8,9.7,3.3,4.1,2.2,7.9,3.0,2.6,12.4,4.8,3.7,2.9,6.1,3.1,2.4,5.0)), "bootstrap", "skewed"); out(rs(199, 20), "bootstrap", "skewed_resamples")
out(freireich[freireich$group == "6-MP", c("weeks", "relapse")], "bootstrap", "six_mp"); out(rs(250, 21), "bootstrap", "six_mp_resamples")
out(data.frame(group = rep(0:1, each = 10), value = c(4,5,6,5,7,4,6,5,8,6, 7,6,8,9,7,8,6,9,7,10)), "bootstrap", "two_groups"); a <- rs(199, 10); b <- rs(199, 10) + 10; out(setNames(cbind(a, b), paste0("i", 1:20)), "bootstrap", "two_groups_resamples")

## --- large synthetic cohort ---------------------------------------------------------------
out(synth_cohort(4711), "synthetic_cohort", "cohort")

## --- states over time ---------------------------------------------------------
# one row a stay in a state: id, entry, time, from, to (equal where the subject did not move), group
m <- survival::myeloid; td <- tmerge(m[, c("id", "trt")], m, id = id, death = event(futime, death), transplant = event(txtime), response = event(crtime), relapse = event(rltime))
to <- with(td, ifelse(death == 1, 4, ifelse(relapse == 1, 3, ifelse(transplant == 1, 2, ifelse(response == 1, 1, 0)))))
before <- ave(to, td$id, FUN = function(x) c(0, head(x, -1)))
out(with(td, data.frame(id, entry = tstart, time = tstop, from = before, to = ifelse(to == 0, before, to), group = as.integer(trt == "B"))), "states", "myeloid")
# months of age: followed from the age at diagnosis on; 0 benign, 1 malignant, 2 dead
g <- survival::mgus2; g$ptime <- with(g, ifelse(pstat == 1 & ptime == futime, ptime - .1, ptime))
sick <- g$pstat == 1; one <- with(g, data.frame(id, entry = 12*age, time = 12*age + ifelse(sick, ptime, futime), from = 0, to = ifelse(sick, 1, 2*death), group = as.integer(sex == "M")))
two <- with(g[sick, ], data.frame(id, entry = 12*age + ptime, time = 12*age + futime, from = 1, to = 1 + death, group = as.integer(sex == "M")))
g2 <- rbind(one, two); g2 <- g2[g2$time > g2$entry, ]; out(g2[order(g2$id, g2$entry), ], "states", "gammopathy")
# bilirubin below 1, 2, 4 and above, back and forth; 4 transplanted, 5 dead. Persons do not all begin in one state.
b <- survival::pbcseq; b$state <- findInterval(b$bili, c(1, 2, 4)); nx <- c(b$day[-1], NA); ns <- c(b$state[-1], NA); last <- c(b$id[-1] != b$id[-nrow(b)], TRUE)
out(data.frame(id = b$id, entry = b$day - 1, time = ifelse(last, b$futime, nx - 1), from = b$state, to = ifelse(last, ifelse(b$status == 0, b$state, 3 + b$status), ns), group = as.integer(b$trt == 1))[ifelse(last, b$futime, nx - 1) > b$day - 1, ], "states", "bilirubin")
# made up: illness and recovery on few days, so that nearly all times are tied; late entry, several subjects a person
set.seed(41); rows <- list(); for (i in 1:60) { t <- sample(-1:2, 1); s <- sample(0:1, 1, prob = c(3, 1)); repeat { u <- t + sample(1:3, 1); to <- sample(c(s, 1 - s, 2), 1, prob = c(3, 4, 1)); rows[[length(rows) + 1]] <- c(i, t, u, s, to, i %% 2)
  if (to == 2 || u >= 9 || runif(1) < .15) break; s <- to; t <- u } }
d <- as.data.frame(do.call(rbind, rows)); names(d) <- c("id", "entry", "time", "from", "to", "group"); d$person <- ceiling(d$id/2.6); out(d[d$time >= 0, ], "states", "ties")

## --- events per person-time -----------------------------------------------------
# made up: fingers of persons who differ in how often anything happens
set.seed(43); p <- rep(1:30, sample(1:4, 30, replace = TRUE)); z <- rgamma(30, .6, .6)[p]; days <- round(runif(length(p), 20, 400)); out(data.frame(person = p, events = rpois(length(p), z*days/250), time = days), "rates", "fingers")
