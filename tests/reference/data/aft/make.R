source("../../r/records.R"); source("../../r/accelerated.R"); rd <- function(f) read.csv(f, check.names = FALSE)
lu <- rd("lung.csv"); ov <- rd("ovarian.csv"); la <- rd("larynx.csv"); bc <- rd("breast_cosmesis.csv")
rc <- function(t, s) ifelse(s == 1, t, Inf)
Lu <- lapply(DISTS, function(k) aft_block(Surv(time, status) ~ age + sex + ecog, lu, k, lu$time, rc(lu$time, lu$status), data.frame(age = c(50, 70), sex = c(2, 1), ecog = c(0, 2)), ts = c(180, 365, 730)))
Ov <- lapply(DISTS[1:2], function(k) aft_block(Surv(time, status) ~ ecog_ps + rx, ov, k, ov$time, rc(ov$time, ov$status)))
la$s2 <- +(la$stage == 2); la$s3 <- +(la$stage == 3); la$s4 <- +(la$stage == 4)
La <- lapply(DISTS, function(k) aft_block(Surv(time, death) ~ s2 + s3 + s4 + age, la, k, la$time, rc(la$time, la$death)))
bc$chemo <- +(bc$treatment == "radio+chemo"); l <- ifelse(bc$left == 0, NA, bc$left)
Bc <- lapply(DISTS, function(k) aft_block(Surv(ifelse(left == 0, NA, left), right, type = "interval2") ~ chemo, bc, k, l, bc$right, data.frame(chemo = 0:1), ts = c(12, 24, 48)))
pm <- function(src, q, s, v) Map(function(a, b, c) pub(src, a, b, c), q, s, v)
k <- La$weibull; doc <- "documentation example of R package survival"
write_expected(list(topic = "Parametric accelerated failure time models", software = software("survival", "KMsurv"),
  conventions = list(model = "log T = x'b + scale*error", likelihood = "of the times themselves, so exact events carry -log(t); software that leaves that term out differs by sum of log t over events", covariance = "of (b, log scale), inverse observed information",
    hazard_ratio = "weibull: exp(-b/scale), SE by the delta method", interval = "left = 0 means left-censored (event by right)"),
  cases = list(
  case("lung", "lung.csv", "four distributions", list(covariates = c("age", "sex", "ecog"), rows = "complete cases"), Lu, rel = 1e-7),
  case("ovarian", "ovarian.csv", "exponential, weibull", list(covariates = c("ecog_ps", "rx")), Ov, c(pm(doc, c("exponential intercept", "exponential ecog", "exponential rx", "exponential log-likelihood"), c("6.9618", "-0.4331", "0.5815", "-97.2"), c(unlist(Ov$exponential$coef), Ov$exponential$log_likelihood)),
    pm(doc, c("weibull intercept", "weibull ecog", "weibull rx", "weibull scale"), c("6.897", "-0.385", "0.529", "0.884"), c(unlist(Ov$weibull$coef), Ov$weibull$scale))), rel = 1e-7),
  case("larynx", "larynx.csv", "four distributions", list(covariates = "s2, s3, s4 (0/1 for stage), age"), La, pm("Klein & Moeschberger 2003, Section 12.4 (larynx, Weibull)", c("stage II", "stage III", "stage IV", "age", "scale"), c("-0.15", "-0.59", "-1.54", "-0.02", "0.88"), c(unlist(k$coef)[-1], k$scale)), rel = 1e-7),
  case("breast_cosmesis_interval", "breast_cosmesis.csv", "interval-censored times, four distributions", list(covariate = "chemo = 1 for radio+chemo"), Bc, rel = 1e-7))))

## ---- robust covariance of a log-normal model, summed by cluster (data made up) ------------
cl <- read.csv("clusters.csv"); f <- survreg(Surv(time, event) ~ x, cl, dist = "lognormal", cluster = cluster, control = list(rel.tolerance = 1e-14, maxiter = 200))
writeLines(to_json(list(times = cl$time, events = cl$event, clusters = cl$cluster, x = cl$x, robust = as.vector(f$var), names = c("(intercept)", "x", "log scale"))), "clusters.json")
