source("../../r/records.R"); source("../../r/curves.R")
rd <- function(f) read.csv(f, check.names = FALSE)
fr <- rd("freireich.csv"); a <- subset(fr, group == "6-MP"); b <- subset(fr, group == "placebo")
lu <- rd("lung.csv"); ch <- rd("channing_men.csv"); am <- rd("aml_weights.csv"); fl <- rd("flat_step.csv")
KM <- "Product-limit curve; Greenwood variance; pointwise 95% limits under five transforms"
src <- "Klein & Moeschberger 2003, Survival Analysis 2nd ed., Table 4.1 (6-MP arm)"
x <- km_block(a$weeks, a$relapse, at = c(0, 5, 6, 10, 12, 20, 23, 30, 35, 40))
ev <- x$curve[x$curve$events > 0, ]
p1 <- c(Map(function(s, i) pub(src, paste("S at week", ev$time[i]), s, ev$survival[i], "looked up: course notes printing the same package's output"), c("0.857","0.807","0.753","0.690","0.627","0.538","0.448"), 1:7),
        Map(function(s, i) pub(src, paste("SE of S at week", ev$time[i]), s, ev$se[i], "looked up: course notes printing the same package's output"), c("0.0764","0.0869","0.0963","0.1068","0.1141","0.1282","0.1346"), 1:7),
        list(pub("Freireich et al. 1963; textbook reanalyses", "median weeks, 6-MP", "23", x$quantiles_midpoint_rule$log$p50$estimate)))
y <- km_block(b$weeks, b$relapse, at = c(0, 1, 5, 10, 20, 23))
L <- km_block(lu$time, lu$status, at = c(0, 100, 182.5, 365, 500, 730, 1000))
Lm <- km_block(lu$time[lu$sex == 1], lu$status[lu$sex == 1], at = c(0, 365)); Lf <- km_block(lu$time[lu$sex == 2], lu$status[lu$sex == 2], at = c(0, 365))
q <- function(z) z$quantiles_midpoint_rule$log$p50
pl <- unlist(lapply(list(list("all", L, c("310","285","363")), list("sex 1", Lm, c("270","212","310")), list("sex 2", Lf, c("426","348","550"))), function(g)
  Map(function(s, k) pub("Documentation output of R package survival, lung data, log-type limits", paste(g[[1]], "median", k), s, q(g[[2]])[[k]]), g[[3]], c("estimate","lower","upper"))), recursive = FALSE)
C <- km_block(ch$exit_months, ch$death, ch$entry_months, at = c(780, 816, 900, 960, 1020, 1080))
c68 <- ch[ch$exit_months >= 816, ]; c68$entry_months <- pmax(c68$entry_months, 815.5)
C68 <- km_block(c68$exit_months, c68$death, c68$entry_months, at = c(816, 900, 960, 1020, 1080))
wi <- km_block(am$time, am$status, w = am$weight_int, at = c(0, 13, 30, 60)); rep_i <- rep(seq_len(nrow(am)), am$weight_int)
wr <- km_block(am$time[rep_i], am$status[rep_i]); near(wi$curve$survival, wr$curve$survival, 1e-12); near(wi$curve$se, wr$curve$se, 1e-12)
wd <- km_block(am$time, am$status, w = am$weight_dec, at = c(0, 13, 30, 60)); wd$robust <- km_robust(am$time, am$status, am$weight_dec)
F <- km_block(fl$time, fl$status, at = c(0, 0.5, 1, 2.5, 5, 6))
# 2-decimal illustration of the two quantile rules on a flat step
near(F$quantiles_midpoint_rule$log$p25$estimate, 1.5); near(F$quantiles_first_time_rule$log$p25$estimate, 1)
write_expected(list(topic = "Product-limit (time-to-event) curves", software = software("survival", "KMsurv"),
  conventions = list(
    at_risk = "subjects with entry < t <= time: everyone whose event or censoring falls at t still counts as at risk at t; an event and a censoring at the same t: the event comes first",
    se = "se = S * se_log_survival; null where S = 0 (0 times infinity)",
    limits = "computed from se_log_survival s: plain S +/- z S s; log S exp(+/- z s); loglog S^exp(+/- z s/log S); logit on S/(1-S) with s/(1-S); arcsine on asin(sqrt S) with 0.5 s sqrt(S/(1-S)). Plain and log are cut to [0,1]. null where S = 0. Where S = 1 (before the first event) plain and log give 1 and 1, the other three are undefined (null here; 1 and 1 is an equally good answer).",
    quantiles = "first_time_rule: smallest t with S(t) <= 1-p. midpoint_rule (what the R package returns): if S equals 1-p exactly over a flat step, the middle of the step. Limits: the same rule applied to the lower and the upper limit curve; null = not reached.",
    cumulative_return = "1 - S", weights = "case weights enter as counts; fractional weights need the robust SE (infinitesimal jackknife), the Greenwood value is given for comparison only"),
  cases = list(
  case("freireich_6mp", "freireich.csv", KM, list(time = "weeks", event = "relapse", where = "group = 6-MP"), x, p1),
  case("freireich_placebo", "freireich.csv", KM, list(time = "weeks", event = "relapse", where = "group = placebo"), y,
    list(pub("Freireich et al. 1963; textbook reanalyses", "median weeks, placebo", "8", y$quantiles_midpoint_rule$log$p50$estimate)), note = "no censoring: Greenwood equals the binomial variance; last S is 0"),
  case("lung_all", "lung.csv", KM, list(time = "time", event = "status"), L, pl[1:3]),
  case("lung_sex1", "lung.csv", KM, list(where = "sex = 1"), Lm, pl[4:6]), case("lung_sex2", "lung.csv", KM, list(where = "sex = 2"), Lf, pl[7:9]),
  case("channing_delayed_entry", "channing_men.csv", paste(KM, "; delayed entry"), list(entry = "entry_months", time = "exit_months", event = "death"), C, note = "the risk set is so small early on that the curve falls to 0 at the second event and stays there: a correct but useless answer the user must be warned about"),
  case("channing_from_816_months", "channing_men.csv", paste(KM, "; delayed entry, conditional on being alive at 816 months"), list(entry = "larger of entry_months and 815.5", keep = "exit_months >= 816"), C68),
  case("aml_integer_weights", "aml_weights.csv", paste(KM, "; case weights equal to repeating rows"), list(weight = "weight_int"), wi),
  case("aml_fractional_weights", "aml_weights.csv", paste(KM, "; fractional case weights, Greenwood and robust SE"), list(weight = "weight_dec"), wd),
  case("flat_step_and_time_zero", "flat_step.csv", KM, list(time = "time", event = "status"), F, note = "event at time 0; S is exactly 0.75 from 1 to 2: p25 is 1.5 under the midpoint rule, 1 under the first-time rule"))))
