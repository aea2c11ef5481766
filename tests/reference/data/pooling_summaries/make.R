source("../../r/records.R"); source("../../r/pooling.R"); d <- read.csv("sites.csv", stringsAsFactors = FALSE)
# every figure that two sites or more tell of; pool_block compares each of its formulas with metafor and stops where they differ
ids <- Filter(function(id) sum(d$id == id) > 1, unique(d$id))
one <- function(id) { s <- d[d$id == id, ]; s <- s[order(s$site), ]; b <- pool_block(s$estimate, s$variance, loo = nrow(s) > 2)
  take <- function(m) { r <- b$random[[m]]; list(tau2 = r$tau2, estimate = r$estimate, se = r$hartung_knapp$se_never_below_plain, ci95 = arr(r$hartung_knapp$ci95_never_narrower), prediction95 = arr(if (nrow(s) > 2) r$estimate + c(-1, 1)*qt(.975, nrow(s) - 2)*sqrt(r$tau2 + r$hartung_knapp$se_never_below_plain^2) else c(NA, NA))) }
  out <- list(id = id, sites = arr(s$site), common = list(estimate = b$fixed$estimate, se = b$fixed$se, ci95 = arr(b$fixed$ci95)), REML = take("REML"), PM = take("PM"), q = b$heterogeneity$q, q_p = b$heterogeneity$p, i2 = b$heterogeneity$i2_from_q, tau2_limits = arr(b$heterogeneity$tau2_ci95_q_profile))
  if (nrow(s) > 2) out$without <- arr(b$leave_one_out$REML$estimate); out }
write_expected(list(topic = "Summaries of three sites pooled in two stages", software = software("metafor"),
  conventions = list(estimates = "as the summaries of the SYNTHETIC cohort synthetic-data/three-sites hold them, on the scale of pooling", interval = "Hartung-Knapp, never narrower than the normal one; prediction: t with k - 2 degrees of freedom, with the error of the interval"),
  cases = list(case("three_sites", "sites.csv", "random effects by REML and Paule-Mandel", NULL, list(answers = unname(lapply(ids, one))), rel = 1e-7))))
